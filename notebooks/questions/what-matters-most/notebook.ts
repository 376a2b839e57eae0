import { group } from "d3-array";
import {
  bandOf,
  drawMembers,
  ensembleSowingDay,
  MEMBER_GROUPS,
  type MemberGroup,
} from "../../../model/public/ensemble.ts";
import { planToProblem } from "../../../model/public/flow.ts";
import { entry, pottedGround } from "../../../model/public/plan.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import {
  type ChoiceControl,
  type Control,
  isShown,
  type NumberControl,
  type Settings,
} from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type Block, defineNotebook, type Figure, type Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { derive, ensemble, solution, source } from "../../runtime/cells.ts";
import { isSameData } from "../../runtime/sameData.ts";
import { plan, units } from "../../runtime/sources.ts";
import { cautions, explained, flowEquation, listed, modelLimits, sentenceCase } from "../../words/words.ts";
import { drawBeds } from "./bedsFigure.ts";
import { answerSentence, type Finding, findingOf, leadingInput, outdatedSentence } from "./finding.ts";
import { groupWords } from "./inputs.ts";
import { inUnits, isBeyond, type Look, lastDay, lookedAt, planLookedAt, rangeWords, unitLookedAt } from "./lookedAt.ts";
import { type Narrowing, narrowingOf, scatterOf } from "./narrowing.ts";
import { barsOf, drawShares, percent } from "./sharesFigure.ts";

const look = source<string>("look");
const day = source<number>("day");
const count = source<number>("count");

const startLook: Look = "radius";

const lookIs =
  (...some: Look[]) =>
  ({ look = startLook }: Settings): boolean =>
    some.includes(look as Look);

/** Offered only with answers that it bears on. */
const shownWith = (some: Look[], controls: Control[]): Control[] =>
  controls.map((control) => ({
    ...control,
    shownWhen: (settings) => lookIs(...some)(settings) && isShown(control, settings),
  }));

const lookControl: ChoiceControl = {
  kind: "choice",
  field: "look",
  label: "Look at",
  style: "select",
  options: [
    { value: "radius", label: "how far water has spread" },
    { value: "given", label: `water given by day ${lastDay}` },
    { value: "lasts", label: "how long a filling lasts" },
    { value: "outer", label: "how far out a crop can be sown" },
  ],
  cell: look,
  initial: startLook,
};

const dayControl: NumberControl = {
  kind: "number",
  field: "spreadDay",
  label: "Days after the first filling",
  measure: "days",
  min: 1,
  max: lastDay,
  step: { metric: 1, us: 1 },
  shownWhen: lookIs("radius"),
  cell: day,
  initial: 7,
};

const countControl: NumberControl = {
  kind: "number",
  field: "beds",
  label: "Beds to work out",
  measure: "",
  min: 50,
  max: 500,
  step: { metric: 10, us: 10 },
  help: () => "More beds make the ranges narrower: four times as many, half as wide.",
  cell: count,
  initial: 200,
};

/** Fixed: the same settings draw the same beds. */
const seed = 1;

/** Serves the sowing day alone, so that the quick setting will do. */
const ownRun = solution(
  derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: planToProblem(plan) }, isCoarseEnough: true })),
);

const gathered = ensemble(
  derive({ ownRun, look, count }, ({ ownRun: { of: plan, runs }, look, count }) => {
    const looked = planLookedAt(look as Look, plan);
    const members = drawMembers(looked, { count, seed, varied: MEMBER_GROUPS });
    const sowingDay = ensembleSowingDay(plan, runs.own);
    const of = { plan, look: look as Look, members };
    return { of, plan: looked, members, task: { kind: "sowing" as const, sowingDay } };
  }),
);

const finding = derive({ gathered, day }, ({ gathered, day }): Finding => {
  const { plan, look, members } = gathered.of;
  const { outcomes, isDone, isStopped } = gathered;
  return findingOf({ plan, at: lookedAt(look, plan, day), members, outcomes, isArriving: !(isDone || isStopped) });
});

const isOutdated = derive(
  { ownRun, gathered, look },
  ({ ownRun, gathered: { of }, look }) =>
    of.look !== look || !isSameData(pottedGround(of.plan), pottedGround(ownRun.of)),
);

const answer = derive(
  { ownRun, finding, isOutdated, look, day },
  ({ ownRun: { of }, finding, isOutdated, look, day }) =>
    isOutdated ? outdatedSentence(of, lookedAt(look as Look, of, day)) : answerSentence(finding),
);

const picture = derive({ finding }, ({ finding }): Figure => {
  const bars = barsOf(finding.importance, finding.leading?.groups ?? []);
  return {
    kind: "figure",
    name: "shares",
    caption: `${bedsWords(finding)} The bars share out what makes ${finding.at.words} differ between them; the lines tell how far a share may be off by the luck of the draw (80 % range).`,
    draw: (stage) => drawShares(bars, `Shares of the spread in ${finding.at.words}`, stage),
  };
});

function bedsWords({ beds, failed, total, isArriving }: Finding): string {
  if (isArriving && beds.length + failed === 0) return `None of ${total} beds that yours may be is worked out yet.`;
  const drawn = `${total === beds.length + failed ? beds.length : `the first ${beds.length} of ${total}`} beds that yours may be`;
  return `${sentenceCase(drawn)}${failed > 0 ? `, ${failed} more could not be worked out` : ""}.`;
}

const sharesTable = derive({ finding }, ({ finding }): Table => {
  const { importance, leading, at } = finding;
  const leads = importance.kind === "shares" ? importance.leads : null;
  const bars = barsOf(importance, leading?.groups ?? []);
  const leadOf = (name: MemberGroup | undefined) => (name && leads ? 100 * leads[name] : "");
  return tableOf("shares", `Shares of the spread in ${at.words}`, bars, [
    ["what differs", ({ words }) => words],
    ["share (%)", ({ isKnown, share }) => (isKnown ? 100 * share : ""), 0],
    ["80 % range, from (%)", ({ isKnown, low }) => (isKnown ? 100 * low : ""), 0],
    ["to (%)", ({ isKnown, high }) => (isKnown ? 100 * high : ""), 0],
    ["of redrawn beds, it leads in (%)", ({ isKnown }, i) => (isKnown ? leadOf(MEMBER_GROUPS[i]) : ""), 0],
  ]);
});

const narrowing = derive({ finding, gathered, units }, ({ finding, gathered, units }) => {
  const { leading } = finding;
  return leading ? narrowingOf(finding, leadingInput(leading), gathered.of.members, units) : null;
});

const worth = derive({ finding, narrowing, units }, ({ finding, narrowing, units }): Block[] =>
  narrowing
    ? [bedsFigure(finding, narrowing, units), fifthsTable(finding, narrowing, units)]
    : [nothingToShow(finding)],
);

const nothingToShow = ({ isArriving }: Finding) =>
  isArriving
    ? "There is something to show here once more beds are worked out."
    : "No share of the spread could be worked out, so there is nothing to show here.";

function bedsFigure({ at }: Finding, narrowing: Narrowing, units: UnitSystem): Figure {
  const { name } = narrowing.input;
  return {
    kind: "figure",
    name: "beds",
    caption: `Each dot is one bed. Of all, four of five lie in the pale band, ${rangeWords(narrowing.all, at, units)}. The coloured bands hold four of five of those alike in ${name}, in the middle one ${rangeWords(entry(narrowing.fifths, 2), at, units)}: that much narrower the answer gets once ${name} is known.`,
    draw: (stage) => drawBeds(scatterOf(narrowing, at, units), `${at.axis} against ${name}`, stage),
  };
}

function fifthsTable({ at }: Finding, { input, fifths }: Narrowing, units: UnitSystem): Table {
  const unit = unitLookedAt(at, units);
  const shown = (value: number) => (isBeyond(value) ? at.beyondWords : inUnits(value, at, units));
  const caption = `${sentenceCase(at.words)}: beds in order of ${input.name}, a fifth of them in each row`;
  return tableOf("beds", caption, fifths, [
    [`${input.name}, from (${input.unit(units)})`, ({ from }) => from, 3],
    ["to", ({ to }) => to, 3],
    [`one in ten below (${unit})`, ({ low }) => shown(low), 1],
    [`middle (${unit})`, ({ median }) => shown(median), 1],
    [`one in ten above (${unit})`, ({ high }) => shown(high), 1],
  ]);
}

const allInputs = MEMBER_GROUPS.flatMap((name) => groupWords[name].inputs);

const rangesTable = derive({ gathered, units }, ({ gathered: { of }, units }): Table => {
  const ranges = allInputs.map((input) => ({
    ...bandOf(of.members.map((member) => input.value(member, of.plan, units))),
    name: `${input.name} (${input.unit(units)})`,
    flag: input.source(of.plan).flag,
  }));
  return tableOf("ranges", "What was varied, and how far", ranges, [
    ["what differs", ({ name }) => name],
    ["one in ten below", ({ low }) => threeFigures(low)],
    ["middle", ({ median }) => threeFigures(median)],
    ["one in ten above", ({ high }) => threeFigures(high)],
    ["source", ({ flag }) => flag],
  ]);
});

const origins = derive({ gathered }, ({ gathered: { of } }): string[] => {
  const byWords = group(allInputs, (input) => input.source(of.plan).words);
  return [...byWords].map(([words, alike]) => `${sentenceCase(listed(alike.map(({ name }) => name)))}: ${words}`);
});

const threeFigures = (value: number) => String(Number(value.toPrecision(3)));

const workings = derive({ finding }, ({ finding: { importance, beds } }): string => {
  const ranked =
    importance.kind === "shares"
      ? ` Here they explain ${percent(importance.explained.share)} of it; what is left is not told apart by ranks.`
      : "";
  return `${beds.length} beds were drawn at random and each run with the coarse grid of a moving slider. All answers, and all numbers drawn, were then replaced by their ranks, and the ranks of the answer put down to those of the numbers by linear regression, so that a bent but steady influence counts in full (Iman & Conover 1979, Technometrics 21:499-509; Saltelli & Sobol 1995, Reliab. Eng. Syst. Saf. 50:225-239; from memory).${ranked}`;
});

export const notebook = defineNotebook({
  name: "what-matters-most",
  question: "What matters most, and what should I measure?",
  answer,
  picture,
  controls: [
    { heading: "What to look at", underPicture: true, controls: [lookControl, dayControl, countControl] },
    { heading: "Soil", controls: [...groups.soil, ...groups.uncertainty, ...groups.start] },
    { heading: "Pot", controls: [potSize, ...groups.pot] },
    {
      heading: "Wall, filling and planting",
      controls: [
        ...groups.wall,
        ...shownWith(["radius", "given", "outer"], groups.filling),
        ...shownWith(["radius", "outer"], groups.crop),
        ...shownWith(["outer"], [...groups.sowingDay, ...groups.sowing]),
      ],
    },
  ],
  basis: "Every bed is worked out at the quick setting of a moving slider.",
  sections: [
    { heading: "What knowing it would be worth", content: [worth] },
    {
      heading: "How to measure",
      content: [...MEMBER_GROUPS.map((name) => groupWords[name].how), "All of these are common practice, no source."],
    },
    {
      heading: "What was varied",
      content: [
        "A plan says what you think your bed is like. These beds are all those that it may be like: a soil of that name, a wall that looks like yours, a start somewhat moister or drier, a pot a size up or down. The shares hang on how far each was varied: what is varied little can matter little.",
        rangesTable,
        origins,
      ],
    },
    {
      heading: "How it was worked out",
      content: [
        workings,
        "What a group of numbers adds to the part explained depends on which others are already there. So it is averaged over all orders in which the five groups can join (Lindeman, Merenda & Gold 1980, Introduction to bivariate and multivariate analysis; Grömping 2006, J. Stat. Softw. 17(1); from memory). The shares sum to the part explained. The rest is what ranks cannot tell apart: things that matter only together, and answers that rise and then fall. The 80 % ranges come from drawing the beds anew, with repeats, from the beds that were run.",
        sharesTable,
        flowEquation,
      ],
    },
    { heading: "Words", content: explained("easy water", "wetted radius", "suction", "sowing band") },
  ],
  limits: [
    "The shares belong to the ranges above and to this plan. In another soil, or with ranges of your own, the order may be another.",
    "The numbers of one soil are drawn each by itself, as their published correlations are not at hand. Where the soil’s name itself is uncertain, passing and holding water change together and share what they do together.",
    "How long a filling lasts is seen in pots that are filled once and left, whatever the plan says about refills.",
    "A share of less than some 5 % may be chance.",
    ...modelLimits,
    ...cautions,
  ],
});
