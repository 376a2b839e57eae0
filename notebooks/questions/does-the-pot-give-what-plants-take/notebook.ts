import { range } from "d3-array";
import {
  A_LITTLE,
  COMPARED_DAYS,
  demandOutcome,
  demandProblem,
  emptyPotProblem,
  HAND,
  HARDLY,
  monthETo,
  type PotWaterUse,
  potWaterUse,
  riseWithPlants,
  shareByPot,
  stageProblem,
  straightLine,
  TRIED_DEMANDS,
} from "../../../model/public/advice.ts";
import type { Run } from "../../../model/public/flow.ts";
import { entry, last, monthName, type Plan, present } from "../../../model/public/plan.ts";
import { formatBoth, formatSuction, fromModel, rounded, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Control } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, solution } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { plan, units } from "../../runtime/sources.ts";
import { dayWords, soilName } from "../../words/planWords.ts";
import { cautions, explained, flowEquation, meanSoil, sentenceCase, spreadOfSoils } from "../../words/words.ts";
import { drawLevels, drawSuctions, suctionCourse } from "./courseFigures.ts";
import { type DemandLine, type Demands, drawDemands } from "./demandFigure.ts";
import { drawRelease } from "./releaseFigure.ts";
import { type Bed, type BedPair, type Beds, plantsOf, stageLooks } from "./stages.ts";
import { answerSentence, moreWords, percent, usesOf } from "./verdict.ts";
import { demandWords, wallWords, wetWords } from "./why.ts";

/** The two that the answer compares come first and alone, so that picture and answer follow a slider. */
const compared = solution(
  derive({ plan }, ({ plan }) => ({
    of: plan,
    problems: { bare: stageProblem(plan, null), grown: stageProblem(plan, "full grown") },
  })),
);

/**
 * All three; the first two cost nothing, since the solver remembers them. What is below the picture depends on these alone,
 * so that no movement of a slider draws it again.
 */
const all = solution(
  derive({ plan }, ({ plan }) => ({
    of: plan,
    problems: {
      bare: stageProblem(plan, null),
      young: stageProblem(plan, "young"),
      grown: stageProblem(plan, "full grown"),
    },
  })),
);

const withEmptyPot = solution(
  derive({ plan }, ({ plan }) => ({
    of: plan,
    problems: { young: emptyPotProblem(plan, "young"), grown: emptyPotProblem(plan, "full grown") },
  })),
);

/** Only the slope is read from these, so they stay coarse. */
const thirsts = solution(
  derive({ plan }, ({ plan }) => ({
    of: plan,
    problems: { ...demandProblems(plan, "spread"), ...demandProblems(plan, "gathered") },
    isCoarseEnough: true,
  })),
);

type Roots = "spread" | "gathered";

const demandProblems = (plan: Plan, roots: Roots) =>
  Object.fromEntries(TRIED_DEMANDS.map((ETo) => [`${roots} ${ETo}`, demandProblem(plan, ETo, roots === "gathered")]));

const pairOf = (plan: Plan, runs: Readonly<Record<keyof BedPair, Run>>): BedPair => ({
  bare: bedOf("bare", plan, runs.bare),
  grown: bedOf("grown", plan, runs.grown),
});

const pair = derive({ compared }, ({ compared: { of, runs } }) => pairOf(of, runs));

const beds = derive(
  { all },
  ({ all: { of, runs } }): Beds => ({ ...pairOf(of, runs), young: bedOf("young", of, runs.young) }),
);

/** The newest of each. */
const drawn = derive({ pair, beds }, ({ pair, beds: { young } }): Beds => {
  return { ...pair, young: { ...young, isOutdated: young.plan !== pair.bare.plan } };
});

function bedOf(kind: keyof Beds, plan: Plan, run: Run): Bed {
  const names = { bare: "nothing planted", young: "young plants", grown: "full grown" };
  return { name: names[kind], look: stageLooks[kind], plan, run, use: potWaterUse(plan, run), isOutdated: false };
}

const answer = derive({ pair, units }, ({ pair, units }) => answerSentence(pair, units));

const picture = derive({ drawn, units }, ({ drawn: beds, units }): Figure => {
  const { plan } = beds.grown;
  return {
    kind: "figure",
    name: "release-and-uptake",
    caption: `Blue: what the same pot gives on each of ${COMPARED_DAYS} days, ${weatherWords(plan)}, in your ${soilName(plan)}${textureWords(plan)}. ${sentenceCase(riseWords(beds))} Orange and green: what ${plantsOf(plan)} want and what they take, over the ${formatBoth(plan.areaPerPot, "area", units)} of ground that the pot serves.`,
    draw: (stage) => drawRelease(beds, units, pictureLabel(beds, units), stage),
  };
});

const weatherWords = ({ month, weather }: Plan) =>
  `with the weather of ${monthName(month)}${weather.isExample ? " of an invented place" : ""}`;

function textureWords({ soil: { texture } }: Plan): string {
  if (!texture) return "";
  const share = (percent: number) => `${Math.round(percent)} %`;
  return ` (${share(texture.sand)} sand, ${share(texture.silt)} silt, ${share(texture.clay)} clay)`;
}

function riseWords(beds: Beds): string {
  const words = moreWords(riseWithPlants(usesOf(beds)));
  return `with full-grown plants it gives ${words} ${words === "as much" ? "as" : "than"} with nothing planted (black line).`;
}

function pictureLabel({ bare, young, grown }: Beds, units: UnitSystem): string {
  const told = ({ name, use }: Bed) => `${name}, ${formatBoth(use.given, "flow", units)}`;
  return `Water that the pot gives day by day: ${[bare, young, grown].map(told).join("; ")}`;
}

const inOrder = ({ bare, young, grown }: Beds) => [bare, young, grown];

const levels = derive({ beds, units }, ({ beds, units }): Figure => {
  const { plan } = beds.bare;
  return {
    kind: "figure",
    name: "pot-level",
    caption: `How high the water stands in the pot. ${levelWords(plan)}`,
    draw: (stage) => drawLevels(inOrder(beds), units, "Height of the water in the pot against days", stage),
  };
});

function levelWords({ filling }: Plan): string {
  if (filling.kind === "float") return "A float holds the level, so all three lie on one line.";
  return "Where the lines lie on one another, the pot empties as fast with plants as without.";
}

const suctions = derive({ beds, units }, ({ beds, units }): Figure => {
  const { plan } = beds.bare;
  const lastSuction = (bed: Bed) => `${rounded(last(suctionCourse(bed)).suction, "kPa")} kPa`;
  return {
    kind: "figure",
    name: "suction-at-the-roots",
    caption: `Suction of the soil ${formatBoth(plan.rootDepth, "length", units)} deep and a hand’s width, ${formatBoth(HAND, "length", units)}, from the wall, once a day. On the last day it is ${lastSuction(beds.bare)} with nothing planted and ${lastSuction(beds.grown)} among full-grown ${plantsOf(plan)}.`,
    draw: (stage) => drawSuctions(inOrder(beds), "Suction of the soil at the roots against days", stage),
  };
});

const balance = derive({ beds, units }, ({ beds, units }) => {
  const parts: [string, (use: PotWaterUse) => number][] = [
    [`given by the pot`, ({ given }) => given],
    ["rain and watering by hand", ({ rained }) => rained],
    ["taken by plants", ({ taken }) => taken],
    ["lost from the soil to the air", ({ evaporated }) => evaporated],
    ["gone deeper than was looked at", ({ drained }) => drained],
    ["left in the ground, more than before", ({ kept }) => kept],
    ["what plants wanted", ({ wanted }) => wanted],
  ];
  const caption = `Where the water came from and went, ${unitOf("flow", units)}, mean of ${COMPARED_DAYS} days`;
  return tableOf("where-the-water-went", caption, parts, [
    ["", ([name]) => name],
    ...inOrder(beds).map(
      ({ name, use }): Column<(typeof parts)[number]> => [name, ([, of]) => fromModel(of(use), "flow", units), 2],
    ),
  ]);
});

const dayByDay = derive({ beds, units }, ({ beds, units }) => {
  const flow = (heading: string, byDay: readonly number[]): Column<number> => [
    heading,
    (day) => fromModel(entry(byDay, day - 1), "flow", units),
    2,
  ];
  const suction = (bed: Bed): Column<number> => {
    const course = suctionCourse(bed);
    return [`suction, ${bed.name}`, (day) => entry(course, day).suction, 1];
  };
  const all = inOrder(beds);
  const caption = `Given, wanted and taken each day (${unitOf("volume", units)}), and suction at the roots at its end (kPa)`;
  return tableOf("day-by-day", caption, range(1, beds.bare.use.givenByDay.length + 1), [
    ["day", (day) => day, 0],
    ...all.map(({ name, use }) => flow(`given, ${name}`, use.givenByDay)),
    ...[beds.young, beds.grown].flatMap(({ name, use }) => [
      flow(`wanted, ${name}`, use.wantedByDay),
      flow(`taken, ${name}`, use.takenByDay),
    ]),
    ...all.map(suction),
  ]);
});

const shares = derive({ beds, withEmptyPot, units }, ({ beds, withEmptyPot: { of, runs }, units }): Block[] => {
  if (of !== beds.grown.plan) return ["The share of the pot is being worked out …"];
  const empty = { young: potWaterUse(of, runs.young), grown: potWaterUse(of, runs.grown) };
  const share = (kind: "young" | "grown") => percent(shareByPot(beds[kind].use, empty[kind]));
  const taken = ({ taken }: PotWaterUse) => formatBoth(taken, "flow", units);
  return [
    `Of what the plants took, ${share("young")} (young) and ${share("grown")} (full grown) came through the wall. This is told by comparison and not by following drops: in the same bed around a pot that is never filled young plants take ${taken(empty.young)} and full-grown ones ${taken(empty.grown)}; what they take beyond that is laid to the pot.`,
    `${sentenceCase(groundWords(beds, units))}`,
  ];
});

function groundWords({ bare, grown }: Beds, units: UnitSystem): string {
  const kept = ({ use }: Bed) => formatBoth(use.kept, "flow", units);
  if (bare.use.kept <= 0.05 * bare.use.given)
    return "With nothing planted the ground does not get wetter on the whole.";
  return `with nothing planted the pot’s water is not saved: ${kept(bare)} of it goes to make the ground wetter, and ${kept(grown)} with full-grown ${plantsOf(grown.plan)}. Dry ground drinks as plants do, so the two beds differ less than they would after months.`;
}

const demands = derive({ thirsts }, ({ thirsts: { of, runs } }): Demands & { of: Plan } => ({
  of,
  spread: demandLine(runs, "spread"),
  gathered: demandLine(runs, "gathered"),
}));

function demandLine(runs: Readonly<Record<string, Run>>, roots: Roots): DemandLine {
  const points = TRIED_DEMANDS.map((ETo) => {
    const { given, taken } = demandOutcome(present(runs[`${roots} ${ETo}`], "run for this demand"));
    return { ETo, given, taken };
  });
  return { points, line: straightLine(points.map(({ ETo, given }) => ({ x: ETo, y: given }))) };
}

const demandLabel = "Water that the pot gives against the thirst of the air, and what plants take";

const demandFigure = derive(
  { demands, units },
  ({ demands, units }): Figure => ({
    kind: "figure",
    name: "release-against-demand",
    caption: `What the pot in your ${soilName(demands.of)} gives when a float keeps it full, to full-grown ${plantsOf(demands.of)}, in the second week of air that is always equally thirsty (its reference evapotranspiration). If the pot gave what plants take, the lines would be as steep as the dotted one.`,
    draw: (stage) => drawDemands(demands, units, demandLabel, stage),
  }),
);

const demandTable = derive({ demands, units }, ({ demands: { spread, gathered }, units }) => {
  const flow = (litres: number) => fromModel(litres, "flow", units);
  const unit = unitOf("flow", units);
  const demandPairs = spread.points.map((point, i) => [point, entry(gathered.points, i)] as const);
  const caption = "What the pot gives and what full-grown plants take against the thirst of the air";
  return tableOf("release-against-demand", caption, demandPairs, [
    [`reference evapotranspiration (${unitOf("rain", units)}/day)`, ([{ ETo }]) => fromModel(ETo, "rain", units), 2],
    [`given, roots spread (${unit})`, ([{ given }]) => flow(given), 2],
    [`taken, roots spread (${unit})`, ([{ taken }]) => flow(taken), 2],
    [`given, roots gathered (${unit})`, ([, { given }]) => flow(given), 2],
    [`taken, roots gathered (${unit})`, ([, { taken }]) => flow(taken), 2],
  ]);
});

const demandBlocks = derive({ demands, units }, ({ demands, units }): Block[] => [
  demandWords(demands, `your ${soilName(demands.of)}`, units),
  "Measured: Vasudevan et al. (2011), over two years and with several pots, found that what a pot gives in a day is linear in the moisture deficit of the air on dry days, and that into standing water it gives less than 5 % of what it gives into air (read in an abstract; how steep the line is was not seen there). So only the straightness can be held against the model, not the steepness. Part of a measured rise may come from wall that stands in the open air, which dries by itself; the model leaves that out.",
]);

const why = derive({ beds, units }, ({ beds, units }): Block[] => [wallWords(beds, units), wetWords(beds, units)]);

const workings = derive({ beds, all, units }, ({ beds, all: { accuracy }, units }): Block[] => {
  const { plan, run, use } = beds.grown;
  return [
    `The air asks for a reference evapotranspiration of ${formatBoth(monthETo(plan), "rain", units)} a day in ${monthName(plan.month)} (Hargreaves, from highs, lows and latitude); full-grown ${plantsOf(plan)} with all the water they want use ${formatBoth(use.wanted, "flow", units)} of it on the ground of one pot.`,
    `Roots drink freely at suctions from ${formatSuction(plan.crop.uptake.h2)} to ${formatSuction(plan.crop.uptake.h3.highDemand)} on a thirsty day. The soil starts at ${formatSuction(plan.startHead)}; ${fillingWords(plan)}.`,
    runSentence(plan, run, accuracy),
  ];
});

function fillingWords({ filling }: Plan): string {
  if (filling.kind === "float") return "a float keeps the pot full to the height of the soil";
  return filling.kind === "once" ? "the pot is filled once" : `the pot is filled every ${dayWords(filling.days)}`;
}

/** All three stages are shown side by side. */
const bedControls: Control[] = groups.ground.filter(({ field }) => field !== "plantStage");

export const notebook = defineNotebook({
  name: "does-the-pot-give-what-plants-take",
  question: "Does the pot give what plants take?",
  answer,
  picture,
  controls: [
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix, ...groups.start] },
    { heading: "Filling", controls: groups.filling },
    { heading: "Pot and wall", controls: [potSize, ...groups.pot, ...groups.wall] },
    { heading: "Crop", controls: [...groups.crop, ...groups.growth] },
    { heading: "Weather", controls: groups.weather },
    { heading: "Bed", controls: bedControls },
  ],
  sections: [
    { heading: "Level and suction", underPicture: true, content: [levels, suctions] },
    { heading: "Where the water went", content: [balance, shares] },
    { heading: "Does it give more when the air is thirstier?", content: [demandFigure, demandBlocks, demandTable] },
    {
      heading: "Why",
      content: [
        "Gardeners say that a pot regulates itself: it gives more as plants take more. Water passes the wall by the difference of head between its two sides: the height of the water inside, and the suction of the soil outside. Roots do not touch the one, and they move the other only as far as they dry the soil right at the wall. In soil that passes water easily it is soon made good from around, and stays about as moist as without them; only soil that lets little water through dries at the wall and pulls harder. Roots that gather at the wall pull there and nowhere else.",
        why,
      ],
    },
    {
      heading: "How it was worked out",
      content: [
        `Three beds are worked out that differ in what grows in them, and in nothing else. “Hardly” is said below ${percent(HARDLY)} more with full-grown plants than with none, “a little” below ${percent(A_LITTLE)} (our own choice).`,
        flowEquation,
        "Roots take what plants want, as far as the soil’s suction lets them (Feddes et al. 1978); roots in moist soil make good for those that find none, up to a half (after Jarvis 1989, from memory, weak).",
        workings,
        dayByDay,
        meanSoil,
      ],
    },
    { heading: "Words", content: explained("suction", "soil moisture", "pot level", "refill") },
  ],
  limits: [
    "Roots spread evenly from their plants and do not seek the water, unless they are shown gathered.",
    "No day and night: plants drink evenly around the clock, and a pot does not rest at night.",
    "One pot in a closed circle of its own ground, as among neighbours alike.",
    "What crops want is told by the thirsty end of published coefficients, and the thirst of the air from temperatures alone is good to about a fifth.",
    spreadOfSoils,
    "The bed that a page first shows is invented, and so is its weather.",
    ...cautions,
  ],
});
