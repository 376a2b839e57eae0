import {
  alternatives,
  ENOUGH,
  enoughIntervals,
  type IntervalShare,
  intervalName,
  intervalProblem,
  intervalShares,
  ownShare,
  RUN_IN_DAYS,
  TRIED_INTERVALS,
  type UnfilledGround,
  unfilledGround,
  watchedOutcome,
  watchedProblem,
} from "../../../model/public/advice.ts";
import type { Run } from "../../../model/public/flow.ts";
import { type Plan, present } from "../../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { derive, picked, solution } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { isSameData } from "../../runtime/sameData.ts";
import { plan, units } from "../../runtime/sources.ts";
import { soilName } from "../../words/planWords.ts";
import { cautions, explained, flowEquation, meanSoil } from "../../words/words.ts";
import { courseOf } from "./course.ts";
import { drawCourse, SHOWN_DAYS } from "./courseFigure.ts";
import { drawIntervals } from "./intervalFigure.ts";
import { adviceWords, answerSentence, everyDays, monthWords, percent, plantsName, potThen } from "./refillWords.ts";
import { saltWords, waterTable } from "./saltWords.ts";
import { advisedOf, amountsTable, changesTable, courseTable, intervalTable, leftOutWords } from "./tables.ts";
import { thirstLitres, thirstTable, thirstWords } from "./thirst.ts";

const own = solution(derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: watchedProblem(plan) } })));

/** All that the intervals rest on: they stand while the days between refills are chosen. */
const unfilled = picked({ plan }, ({ plan }) => unfilledGround(plan));
const isOfIntervals = (plan: Plan, of: UnfilledGround) => isSameData(unfilledGround(plan), of);

const intervals = solution(
  derive({ unfilled }, ({ unfilled }) => {
    const problems = TRIED_INTERVALS.map((days) => [intervalName(days), intervalProblem(unfilled, days)]);
    return { of: unfilled, problems: Object.fromEntries(problems), isCoarseEnough: true };
  }),
);

const changes = solution(
  derive({ plan }, ({ plan }) => {
    const changed = Object.fromEntries(alternatives(plan).map((each) => [each.name, watchedProblem(each.plan)]));
    return { of: plan, problems: { own: watchedProblem(plan), ...changed }, isCoarseEnough: true };
  }),
);

const answer = derive({ own, intervals, changes, units }, ({ own, intervals, changes, units }) => {
  const isKnown = isOfIntervals(own.of, intervals.of);
  const helping = changes.of === own.of ? helpingOf(changes.of, changes.runs) : null;
  const tried = isKnown ? intervalShares(intervals.runs) : null;
  return answerSentence({ plan: own.of, run: own.runs.own, tried, helping }, units);
});

function helpingOf(plan: Plan, runs: Readonly<Record<string, Run>>) {
  const isEnough = (changed: Plan, run: Run) => ownShare(changed, run, watchedOutcome(changed, run)) >= ENOUGH;
  return alternatives(plan)
    .filter((each) => isEnough(each.plan, present(runs[each.name], each.name)))
    .map(({ name }) => name);
}

const picture = derive({ own, units }, ({ own: { of, runs }, units }): Figure => {
  const course = courseOf(of, runs.own);
  const what = `${plantsName(of)} in your ${soilName(of)} ${monthWords(of)}`;
  const label = `Water left in the pot, and share of the thirst of ${what} that is met, against ${course.since}`;
  return {
    kind: "figure",
    name: "one-filling",
    caption: `${beforeWords(of, runs.own)}: above, the water left in the pot; below, what share of its thirst is met for ${what}. ${seenWords(of, runs.own, units)}`,
    draw: (stage) => drawCourse(course, units, label, stage),
  };
});

function beforeWords(plan: Plan, run: Run): string {
  const { filling } = plan;
  if (filling.kind === "float") return "A pot that a float keeps full, after its first two weeks";
  const { fromDay } = watchedOutcome(plan, run);
  if (filling.kind === "once" || fromDay === 0) return "The first filling, with no other after it";
  return `One refill, with no other after it, of a pot that has been filled ${everyDays(filling.days)} until then`;
}

/** What to see in it. */
function seenWords(plan: Plan, run: Run, units: UnitSystem): string {
  const outcome = watchedOutcome(plan, run);
  const { sufferDays, sufferCause } = outcome;
  if (sufferDays === null || sufferDays > SHOWN_DAYS) return "In the days shown they do not suffer.";
  if (sufferCause === "wet") return "What they suffer from is soil too wet to let their roots breathe.";
  if (sufferDays < 0.25) return "They suffer on the first day shown, for the ground about them is still dry.";
  return `They begin to suffer ${potThen(plan, run, outcome, sufferDays, units)}.`;
}

const oneFilling = derive({ own, units }, ({ own: { of, runs }, units }) => courseTable(courseOf(of, runs.own), units));

/** The plan's own refills as a point among those tried. */
function ownPoint(plan: Plan, run: Run): IntervalShare | null {
  const { filling } = plan;
  if (filling.kind !== "every" || filling.days > RUN_IN_DAYS) return null;
  return { days: filling.days, share: watchedOutcome(plan, run).metBefore };
}

const intervalPicture = derive({ own, intervals, units }, ({ own, intervals, units }): Figure => {
  const ground = intervals.of;
  const tried = intervalShares(intervals.runs);
  const carrying = enoughIntervals(tried);
  const point = isOfIntervals(own.of, ground) ? ownPoint(own.of, own.runs.own) : null;
  const found = carrying
    ? `At least ${100 * ENOUGH} % is met when it is filled ${adviceWords(carrying, tried)}`
    : `No interval meets ${100 * ENOUGH} %`;
  const label = "Share of the plants’ thirst that is met, against days between refills";
  return {
    kind: "figure",
    name: "intervals",
    caption: `What share of its thirst is met for ${plantsName(ground)} in your ${soilName({ ...ground, units })} ${monthWords(ground)}, for each number of days between refills: in the last round of four weeks that begin with dry ground. ${found}${point ? `. The star is your bed as it stands after two weeks, ${percent(point.share)}: it still lives on what the ground held at first, or still fills it` : ""}.`,
    draw: (stage) => drawIntervals({ tried, carrying, own: point }, label, stage),
  };
});

const intervalNumbers = derive({ plan, intervals, units }, ({ plan, intervals: { runs }, units }) =>
  intervalTable(plan, intervalShares(runs), runs, units),
);

const amounts = derive({ own, intervals, units }, ({ own, intervals, units }) => {
  const isKnown = isOfIntervals(own.of, intervals.of);
  const advised = isKnown ? advisedOf(enoughIntervals(intervalShares(intervals.runs)), intervals.runs) : null;
  return amountsTable(own.of, own.runs.own, advised, units);
});

const drunk = derive(
  { plan, units },
  ({ plan, units }) =>
    `The plants on that ground want ${formatBoth(7 * thirstLitres(plan), "volume", units)} a week (see below). What a pot takes beyond that wets more ground, sinks below the roots or goes off into the air: filling more often than needed costs water.`,
);

const changesCells = derive({ changes, units }, ({ changes: { of, runs }, units }): Block[] => [
  changesTable(of, runs, units),
  ...leftOutWords(of),
]);

const thirst = derive({ plan, units }, ({ plan, units }): Block[] => {
  return thirstWords(plan, units).toSpliced(1, 0, thirstTable(plan, units));
});

const salts = derive({ own, units }, ({ own: { of, runs }, units }): Block[] => {
  const { litres } = watchedOutcome(of, runs.own);
  const perWeek = { float: 7, once: 1, every: of.filling.kind === "every" ? 7 / of.filling.days : 1 }[of.filling.kind];
  const span = of.filling.kind === "once" ? "of the one filling" : "that your pot takes in a week";
  return saltWords(of, litres * perWeek, span, units).toSpliced(1, 0, waterTable());
});

const workings = derive({ own }, ({ own: { of, runs, accuracy } }): Block[] => [runSentence(of, runs.own, accuracy)]);

/** Plants drink from all their roots: the depth of most of them changes nothing here. */
const drinkingCropControls = [...groups.crop.filter(({ field }) => field !== "rootDepth"), ...groups.growth];

export const notebook = defineNotebook({
  name: "when-do-i-refill",
  question: "When do I refill?",
  answer,
  picture,
  controls: [
    { heading: "Filling", underPicture: true, controls: groups.filling },
    { heading: "Plants and ground", controls: [...groups.ground, ...drinkingCropControls] },
    { heading: "Weather", controls: groups.weather },
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix, ...groups.start] },
    { heading: "Pot", controls: [potSize, ...groups.pot, ...groups.wall] },
    { heading: "Carrying water", controls: groups.carrying },
  ],
  sections: [
    {
      heading: "How many days between refills",
      underPicture: true,
      content: [
        intervalPicture,
        "Why not wait until they suffer? One refill may come late: the ground about the pot holds water for some days. Refill as late every time, and the ground has less of it each time; the line above shows what comes of that in the long run.",
      ],
    },
    {
      heading: "What a refill takes",
      content: [
        amounts,
        drunk,
        "A litre weighs a kilogram, a US gallon 8.3 pounds: a can for each hand is easier on the back than one can.",
      ],
    },
    {
      heading: "What would change it",
      content: [
        changesCells,
        "Each row changes one thing and leaves the rest. A second pot halves the ground that each pot serves, and doubles the pots to fill; a larger pot lasts longer and has more wall. Mulch and lid save only what sun and air take.",
      ],
    },
    { heading: "How much the plants want", content: [thirst] },
    { heading: "Salt", content: [salts] },
    { heading: "The numbers of the pictures", content: [oneFilling, intervalNumbers] },
    {
      heading: "How it was worked out",
      content: [
        "One pot stands in a circle of the ground that it serves, closed at its side, as if all about it were more of the same. Sun and air draw on the soil, roots on all soil they reach, and the pot’s wall gives what soil draws from it. Roots take less from soil that is too wet or too dry (Feddes et al. 1978), and make good elsewhere in their reach what they miss here, up to a limit (Jarvis 1989).",
        flowEquation,
        "Roots are a loss in each ring of soil, and the top loses or takes what weather asks for as far as soil can.",
        `For the first picture your bed is refilled by your plan for two weeks, from the moisture you say it starts with, and the last of these refills is then watched alone. For the second, each number of days is followed for four weeks from a dry bed, or a drier one if yours is, and its last whole round is told. Plants are said to suffer where they get less than ${100 * ENOUGH} % of the water they want.`,
        workings,
      ],
    },
    { heading: "Words", content: explained("refill", "pot level", "suction", "soil moisture", "wetting front") },
  ],
  limits: [
    "The weather is that of an average month. A heat wave asks for more than its month does: look into the pot more often then.",
    "The air’s thirst, reckoned by Hargreaves from temperatures alone, is off by a fifth often enough; in wind it is more, in damp air less.",
    "Plants’ own share of it lies at the thirsty end of what FAO-56 allows, by up to 0.05 of the reference.",
    "Plants drink as much by night as by day here, and their roots are spread evenly about them; roots that have crowded to the pot do better than this.",
    "Up to half of the roots may lie dry before plants get less than they want (Jarvis 1989, from memory, weak).",
    `That ${100 * ENOUGH} % is enough is our own choice.`,
    "One pot in a closed circle of its own ground: pots that stand unevenly share less well.",
    "The numbers of days are tried one by one at the quick setting, and none between them.",
    "The bed that a page first shows is invented, and so is its weather unless you type your own.",
    meanSoil,
    "Walls of pots that look alike vary threefold. Dig and look before you rely on a number.",
    ...cautions,
    "Never drink from pots, tanks or their lines. Roof water on food is judged in two ways: some advisers accept it on soil, others advise against it on vegetables.",
    "Keep a lid on the pot that children and animals cannot lift and that leaves no gap for mosquitoes.",
    "Water is heavy: a litre weighs a kilogram. Carry what is comfortable.",
  ],
});
