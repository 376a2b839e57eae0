import {
  activeRootDepth,
  type BedSpacings,
  type Beds,
  bedSpacings,
  countedBed,
  readingDay,
  scaledPot,
  spacingProblem,
  spacingProblems,
  spacingReading,
} from "../../../model/public/advice.ts";
import { drawMembers, SOIL_GROUPS, spacingBand } from "../../../model/public/ensemble.ts";
import {
  atSpacing,
  last,
  type PlanPart,
  planPart,
  UNSPACED_GROUND,
  type UnspacedGround,
} from "../../../model/public/plan.ts";
import { formatBoth, formatSuction } from "../../../model/public/units.ts";
import { ink, moistureColours, seriesLooks } from "../../figures/look.ts";
import type { ChoiceControl } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { comparedSoils, inSoil } from "../../notebook/comparedSoils.ts";
import { type Block, defineNotebook, type Figure, type Stage } from "../../notebook/notebook.ts";
import { derive, ensemble, picked, solution, source } from "../../runtime/cells.ts";
import { runSentence } from "../../runtime/runs.ts";
import { isSameData } from "../../runtime/sameData.ts";
import { plan, units } from "../../runtime/sources.ts";
import { hasSpread, soilsCalled } from "../../words/bandWords.ts";
import { cropName, soilName } from "../../words/planWords.ts";
import { cautions, explained, flowEquation } from "../../words/words.ts";
import { drawBetween } from "./betweenFigure.ts";
import { checkBlocks, checkedMembers } from "./groundCheck.ts";
import { drawMidway, type MidwayLine } from "./midwayFigure.ts";
import {
  answerSentence,
  depthWords,
  largerWords,
  practiceWords,
  type SpacingAnswer,
  tooNearWords,
  triangleWords,
} from "./spacingWords.ts";
import { comparedTable, readingTable } from "./tables.ts";

/** From one pot to the next, cm: common practice, no source. */
const PRACTICE = { from: 60, to: 90 };
/** One draw of soils for everyone. */
const SEED = 1;

const drawnSoils = source<string>("drawnSoils");

/** At the plan's own spacing. */
const own = solution(
  derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: spacingProblem(plan, plan.bed.spacing) } })),
);

/** All that spacings rest on: they stand while the plan's own spacing is chosen. */
const unspaced = picked({ plan }, ({ plan }) => planPart(plan, UNSPACED_GROUND));

const tried = solution(
  derive({ unspaced }, ({ unspaced }) => ({
    of: unspaced,
    problems: spacingProblems({ own: unspaced }),
    isCoarseEnough: true,
  })),
);

const found = derive({ tried }, ({ tried: { of, runs } }) => bedSpacings(of, "own", runs));

const drawn = ensemble(
  derive({ found, drawnSoils }, ({ found: { plan, advice }, drawnSoils }) => ({
    of: plan,
    plan: atSpacing(plan, advice.spacing),
    members: hasSpread(plan) ? drawMembers(plan, { count: Number(drawnSoils), seed: SEED, varied: SOIL_GROUPS }) : [],
    task: { kind: "spacing" as const, near: Math.round(advice.spacing) },
  })),
);

/** The bed that pots are counted for, whatever its own spacing, and wherever its pots stand now. */
const counted = picked({ plan }, ({ plan: { bed } }) => countedBed(bed));

const told = derive({ counted, found, drawn, units }, ({ counted, found, drawn, units }): SpacingAnswer => {
  const isKnown = drawn.outcomes.length > 0 && isSameData(drawn.of, found.plan);
  const plan = { ...found.plan, bed: counted, units };
  return { plan, found, band: isKnown ? spacingBand(drawn.outcomes) : null };
});

const sentence = derive({ told, units }, ({ told, units }) => answerSentence(told, units));

/** The picture's own run comes first: it follows the sliders. */
const answer = derive({ own, sentence }, ({ sentence }) => sentence);

const picture = derive({ own, units }, ({ own: { of, runs }, units }): Figure => {
  const run = runs.own;
  const { spacing } = of.bed;
  const reading = spacingReading(of, run, spacing);
  const { easyWaterHead } = of.crop;
  const isEasy = reading.midwayHead >= easyWaterHead;
  const apart = formatBoth(spacing, "length", units);
  const label = `Soil moisture between pots ${apart} apart: ${isEasy ? "easy water" : "too dry"} midway`;
  const { depth, midwayHead: head } = reading;
  const shown = { grid: run.grid, frame: last(run.frames), pot: of.pot, spacing, reading: { depth, head } };
  const figure = { ...shown, easyWaterHead, units };
  return {
    kind: "figure",
    name: "between-two-pots",
    caption: `A row of pots ${apart} apart in your ${soilName(of)}, cut through, on day ${Number(readingDay(of).toFixed(2))} just before ${of.filling.kind === "every" ? "they are filled again" : "the next day"}. ${isEasy ? `Easy water for ${cropName(of)} meets midway: ${formatSuction(Math.min(reading.midwayHead, 0))} at the depth of most roots` : `Midway, at the depth of most roots, a strip is too dry for ${cropName(of)} to drink freely: ${formatSuction(reading.midwayHead)}`} (the dashed line: ${formatSuction(easyWaterHead)}, where ${cropName(of)} starts to suffer).`,
    draw: (stage) => drawBetween(figure, label, stage),
  };
});

const limitsOf = (plan: PlanPart<"crop">) => ({
  crop: cropName(plan),
  easyWaterHead: plan.crop.easyWaterHead,
  tooWetHead: plan.crop.tooWetHead,
});

const lineOf = (name: string, { readings, advice }: BedSpacings, colour: string = ink, dash = ""): MidwayLine => ({
  name,
  colour,
  dash,
  readings,
  largest: advice.kind === "found" ? advice.spacing : null,
});

const ownSpacing = derive({ plan }, ({ plan }) => plan.bed.spacing);

const midwayPicture = derive({ told, ownSpacing, units }, ({ told, ownSpacing, units }): Figure => {
  const { plan, found, band } = told;
  const soil = soilName(plan);
  const shown = { lines: [lineOf(soil, found)], limits: limitsOf(found.plan), band, own: ownSpacing };
  const figure = { ...shown, practice: PRACTICE, units };
  return {
    kind: "figure",
    name: "midway-by-spacing",
    caption: `How dry the ground midway between two pots gets before a refill, against how far apart they stand, in your ${soil}: where the line rises above the upper dashed one, a dry strip is left. ${band ? `The pale band is where that happens in eight of ten ${soilsCalled(plan)}. ` : ""}The grey bar is what is commonly done, ${practiceWords(PRACTICE.from, PRACTICE.to, units)} by the size of the pot (common practice, no source); nothing here is fitted to it.`,
    draw: (stage) => drawMidway(figure, "Suction midway between two pots against the distance between them", stage),
  };
});

/** Beds that differ from the plan's in one thing. */
function comparedBeds(plan: UnspacedGround): Record<"soils" | "pots" | "grids" | "plants", Beds> {
  const pot = (share: number) => ({ ...plan, pot: scaledPot(plan.pot, Math.cbrt(share)) });
  const grid = (grid: UnspacedGround["bed"]["grid"]) => ({ ...plan, bed: { ...plan.bed, grid } });
  return {
    soils: Object.fromEntries(comparedSoils.map((name) => [name, inSoil(plan, name)])),
    pots: { "half the size": pot(0.5), "twice the size": pot(2) },
    grids: { "in squares": grid("square"), "in triangles": grid("triangular") },
    plants: { young: { ...plan, plantStage: "young" }, "full grown": { ...plan, plantStage: "full grown" } },
  };
}

type Group = keyof ReturnType<typeof comparedBeds>;

const compared = solution(
  derive({ unspaced }, ({ unspaced }) => {
    const beds = comparedBeds(unspaced);
    const problems = Object.fromEntries(Object.values(beds).flatMap((group) => Object.entries(spacingProblems(group))));
    return { of: beds, problems, isCoarseEnough: true };
  }),
);

const sides = derive(
  { compared },
  ({ compared: { of, runs } }) =>
    (group: Group) =>
      Object.entries(of[group]).map(([label, plan]) => ({ label, found: bedSpacings(plan, label, runs) })),
);

const LOOKS: Record<string, { colour: string; dash: string }> = {
  ...seriesLooks,
  "half the size": { colour: seriesLooks.sand.colour, dash: "" },
  "twice the size": { colour: moistureColours[8], dash: "7 3" },
};

/** A picture and a table of beds side by side. */
const comparison = (group: Group, words: { caption: string; table: string; withOwn: boolean }) =>
  derive({ sides, told, units }, ({ sides, told: { found, plan }, units }): Block[] => {
    const beds = sides(group);
    const all = words.withOwn ? beds.toSpliced(1, 0, { label: "your pot", found }) : beds;
    const lines = all.map(({ label, found }) =>
      lineOf(label, found, LOOKS[label]?.colour ?? ink, LOOKS[label]?.dash ?? ""),
    );
    const shown = { lines, limits: limitsOf(found.plan), band: null, own: null, practice: null, units };
    const { caption } = words;
    const draw = (stage: Stage) => drawMidway(shown, caption, stage);
    const figure: Figure = { kind: "figure", name: `midway-${group}`, caption, draw };
    return [figure, comparedTable(group, words.table, all, plan, units)];
  });

const soilsCompared = comparison("soils", {
  caption:
    "Suction midway between two pots, against how far apart they stand, in sand, loam and clay: the same pot, plants and refills.",
  table: "The same bed in three soils",
  withOwn: false,
});

const potsCompared = comparison("pots", {
  caption:
    "What a bigger pot buys: suction midway between pots of half the size, your own and twice the size, against how far apart they stand.",
  table: "The same bed with pots of three sizes",
  withOwn: true,
});

const gridsAndPlants = derive({ sides, told, units }, ({ sides, told: { plan }, units }): Block[] => [
  comparedTable("grids", "The same bed with its pots in squares and in triangles", sides("grids"), plan, units),
  comparedTable("plants", "The same bed while plants are young, and full grown", sides("plants"), plan, units),
]);

/** Numbers for a person who has fewer pots than the bed needs. */
const fewer = derive({ sides, told, units }, ({ sides, told: { found, plan }, units }): Block[] => [
  ...largerWords(plan, found, last(sides("pots")).found, units),
  ...triangleWords(plan, last(sides("grids")).found, units),
  "Closer plants: set plants only where easy water reaches, in a ring around each pot, and leave the strip midway to mulch. “Where do I sow?” gives the ring.",
  "Sow only in the bands: pots may then stand as far apart as you like, for each serves its own ring; it is the same number of plants to a pot, not to a bed.",
  "Fill more often: the strip midway is at its driest just before a refill. “When do I refill?” tells what each number of days does.",
]);

const numbers = derive({ told, units }, ({ told: { found, plan }, units }) => readingTable(found, plan, units));

const readingWords = derive({ found, units }, ({ found, units }): Block[] => [
  depthWords(found, activeRootDepth(found.plan), readingDay(found.plan), units),
  ...[tooNearWords(found, units)].filter((words) => words !== null),
]);

const check = source<string>("check");

const checkControl: ChoiceControl = {
  kind: "choice",
  style: "radio",
  field: check.name,
  label: "Hold the circle against three dimensions",
  cell: check,
  initial: "no",
  options: [
    { value: "no", label: "not now" },
    { value: "yes", label: "now" },
  ],
  help: () => "Some seconds for each of four soils; it can be stopped.",
};

const soilsControl: ChoiceControl = {
  kind: "choice",
  style: "select",
  field: drawnSoils.name,
  label: "Soils of the name in the band",
  cell: drawnSoils,
  initial: "40",
  options: ["20", "40", "100"].map((value) => ({ value, label: value })),
  help: () => "More make a steadier band, and take longer.",
};

const checked = ensemble(
  derive({ plan, check }, ({ plan, check }) => {
    const members = check === "yes" ? checkedMembers(plan) : [];
    return { of: { plan, members }, plan, members, task: { kind: "ground" as const } };
  }),
);

const inThreeDimensions = derive({ checked, units }, ({ checked: { of, outcomes, total }, units }): Block[] => {
  if (total === 0)
    return [
      "Choose “now” under “Pots in the bed” to have it worked out for your spacing and your soil, and for sand, loam and clay.",
    ];
  return checkBlocks({ ...of, outcomes }, units);
});

const workings = derive({ own }, ({ own: { of, runs, accuracy } }): Block[] => [runSentence(of, runs.own, accuracy)]);

const drinkingCropControls = [...groups.crop, ...groups.growth];

export const notebook = defineNotebook({
  name: "how-far-apart-do-the-pots-go",
  question: "How far apart do the pots go?",
  answer,
  picture,
  controls: [
    { heading: "Pots in the bed", underPicture: true, controls: [...groups.grid, soilsControl, checkControl] },
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix, ...groups.start] },
    { heading: "Pot and filling", controls: [potSize, ...groups.pot, ...groups.wall, ...groups.filling] },
    {
      heading: "Plants and ground",
      controls: [...groups.between, ...drinkingCropControls],
    },
    { heading: "Weather", controls: groups.weather },
    { heading: "Bed", controls: groups.outline },
  ],
  sections: [
    { heading: "How far apart", underPicture: true, content: [midwayPicture, readingWords] },
    { heading: "In other soils", content: [soilsCompared] },
    { heading: "What a bigger pot buys", content: [potsCompared] },
    { heading: "Squares or triangles, young plants or old", content: [gridsAndPlants] },
    {
      heading: "Is the circle right?",
      content: [
        "Among others on an even grid a pot has a square or a hexagon of ground to itself, and the ground differs all about it: midway to the next pot it is nearer to water than in the corner, farthest from any pot. The circle of the same area, which everyone takes in its place, knows no corners. In three dimensions, with the same soil, wall, roots and steps in time, both can be seen.",
        inThreeDimensions,
      ],
    },
    { heading: "If you have fewer pots", content: [fewer] },
    { heading: "The numbers of the picture", content: [numbers] },
    {
      heading: "How it was worked out",
      content: [
        "Every pot stands among others like it, so that no water crosses midway: each has ground of its own, whose neighbours are its mirror. For most answers that ground is taken as the circle of the same area, closed at its side. Plants of the stage you chose drink from it in the month you chose, as told in “When do I refill?”.",
        flowEquation,
        "Each distance between pots is one run at the quick setting. The largest at which soil midway is still wetter than the suction at which the crop starts to suffer is the answer; between two distances it runs straight in the logarithm of suction.",
        workings,
      ],
    },
    { heading: "Words", content: explained("easy water", "suction", "refill", "soil moisture") },
  ],
  limits: [
    "All pots are alike, stand on an even grid and are filled on the same day; pots at the edge of a bed share with one neighbour fewer, and with the path beside it.",
    "Roots are spread evenly about plants in a ring round each pot. Roots that grow towards the water make good a part of a dry strip.",
    "Soils of one name differ, and so do walls that look alike, threefold: set out two pots first, dig midway after two weeks, and look.",
    "The weather is that of an average month. The bed that a page first shows is invented, and so is its weather unless you type your own.",
    ...cautions,
    "Keep a lid on every pot that children and animals cannot lift and that leaves no gap for mosquitoes.",
  ],
});
