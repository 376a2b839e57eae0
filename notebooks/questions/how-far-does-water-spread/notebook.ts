import { greatest, least, range } from "d3-array";
import { isAtSide, onDay } from "../../../model/public/advice.ts";
import {
  buildPot,
  edgeIndex,
  planEdges,
  planToProblem,
  type Run,
  releaseIntoSuction,
  stopperFor,
  TOLD_DAYS,
  type VanGenuchtenParameters,
} from "../../../model/public/flow.ts";
import { entry, type Plan, present } from "../../../model/public/plan.ts";
import {
  CM3_PER_LITRE,
  format,
  formatBoth,
  formatSuction,
  fromModel,
  type UnitSystem,
  unitOf,
} from "../../../model/public/units.ts";
import { crops, easyWaterOf, rowNamed, sourceOf, textureClasses, walls } from "../../../reference-data/load.ts";
import { type CrossSection, drawCrossSection } from "../../figures/crossSection.ts";
import type { NumberControl } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { comparedSoils, inEach, inSoil, isCompared } from "../../notebook/comparedSoils.ts";
import { type Block, defineNotebook, type Figure } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, solution, source } from "../../runtime/cells.ts";
import { frameOnDay, runSentence } from "../../runtime/runs.ts";
import { plan, units } from "../../runtime/sources.ts";
import { cropName, dayWords, soilName } from "../../words/planWords.ts";
import { cautions, explained, flowEquation, meanSoil, modelLimits } from "../../words/words.ts";
import { drawSpread, type Spread } from "./spreadFigure.ts";

const lastDay = 14;
export const frameDays = range(0.5, lastDay + 0.5, 0.5);

/** Wide enough for 14 days around most pots; fixed, so that nothing jumps. */
const drawnWindow = { radius: 70, depth: 80, above: 14 };

const day = source<number>("day");

const dayControl: NumberControl = {
  kind: "number",
  field: "day",
  label: "Days after the first filling",
  measure: "days",
  min: 0.5,
  max: lastDay,
  step: { metric: 0.5, us: 0.5 },
  plays: true,
  cell: day,
  initial: 3,
};

const own = solution(
  derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: planToProblem(plan, { days: frameDays }) } })),
);

const compared = solution(
  derive({ plan }, ({ plan }) => ({
    of: plan,
    problems: inEach((name) => planToProblem(inSoil(plan, name), { days: frameDays })),
  })),
);

const answer = derive({ own, day, units }, ({ own: { of, runs }, day, units }) =>
  answerSentence(of, runs.own, day, units),
);

function answerSentence(plan: Plan, run: Run, day: number, units: UnitSystem): string {
  const [soil, crop] = [soilName(plan), cropName(plan)];
  if (plan.startHead >= plan.crop.easyWaterHead)
    return `Your ${soil} starts out moist enough for ${crop} everywhere, so no edge can be drawn; let it start drier to see what the pot adds.`;
  const reached = reachedWords(plan, run, day, units);
  if (!reached)
    return `In your ${soil}, no soil at root depth is moist enough for ${crop} ${dayWords(day)} after the first filling.`;
  const later = day < lastDay ? `, and ${reachedWords(plan, run, lastDay, units) ?? "nowhere"} after ${lastDay}` : "";
  return `In your ${soil}, soil moist enough for ${crop} reaches ${reached} from the pot’s centre after ${dayWords(day)}${later}.`;
}

/** The wetted radius in words; undefined where nothing is moist enough. */
function reachedWords(plan: Plan, run: Run, day: number, units: UnitSystem): string | undefined {
  const radius = onDay(run, radiusHistory(plan, run), day);
  if (radius === 0) return undefined;
  return `${isAtSide(run, radius) ? "beyond " : ""}${formatBoth(radius, "length", units)}`;
}

const easyWater = (plan: Plan, run: Run) => entry(run.history.edges, edgeIndex(plan, "easyWater"));
const radiusHistory = (plan: Plan, run: Run) => easyWater(plan, run).radius;

const picture = derive({ own, day, units }, ({ own: { of, runs }, day, units }): Figure => {
  const run = runs.own;
  const frame = frameOnDay(run, day);
  const [soil, crop, when] = [soilName(of), cropName(of), dayWords(frame.day)];
  const edges = planEdges(of);
  const lines: CrossSection["edges"] = [
    { head: edges.front.head, label: "wetting front", labelAt: "deepest", dash: "3 4" },
    { head: edges.easyWater.head, label: `easy water for ${crop}`, labelAt: "widest", dash: "" },
  ];
  const section = { grid: run.grid, frame, pot: of.pot, edges: lines, window: drawnWindow, units };
  const label = `Half a cross-section through the pot and the ${soil} around it: soil moisture after ${when}`;
  return {
    kind: "figure",
    name: "cross-section",
    caption: `After ${when} in ${soil}: inside the solid line soil is moist enough for ${crop}; the dashed line is the wetting front, about as far as a trowel would show. The left edge is the middle of the pot; blue is the water in it.`,
    draw: (stage) => drawCrossSection(section, label, stage),
  };
});

const spreads = derive({ own, compared }, ({ own, compared }): Spread[] => {
  const others = comparedSoils.map((name) => spreadOf(name, name, compared.of, compared.runs[name]));
  return isCompared(own.of) ? others : [...others, spreadOf(`your ${soilName(own.of)}`, "own", own.of, own.runs.own)];
});

function spreadOf(name: string, look: Spread["look"], plan: Plan, run: Run): Spread {
  const radii = radiusHistory(plan, run);
  return {
    name,
    look,
    points: run.history.day.map((day, i) => ({ day, radius: entry(radii, i) })),
    radiusOn: (day) => onDay(run, radii, day),
    depthOn: (day) => onDay(run, easyWater(plan, run).wettedDepth, day),
  };
}

const comparison = derive({ spreads, compared, day, units }, ({ spreads, compared: { of }, day, units }): Figure => {
  const radiusOf = ({ radiusOn }: Spread) => radiusOn(day);
  const deepest = present(
    greatest(spreads, ({ depthOn }) => depthOn(day)),
    "soil",
  );
  const radius = (spread: Spread | undefined) => {
    const { name, radiusOn } = present(spread, "soil");
    return `${name}, ${formatBoth(radiusOn(day), "length", units)}`;
  };
  return {
    kind: "figure",
    name: "wetted-radius",
    caption: `How far soil moist enough for ${cropName(of)} reaches from the same pot, at the depth of most roots. After ${dayWords(day)} it reaches furthest in ${radius(greatest(spreads, radiusOf))} and least far in ${radius(least(spreads, radiusOf))}; it goes deepest in ${deepest.name}, ${formatBoth(deepest.depthOn(day), "length", units)} below the surface.`,
    draw: (stage) => drawSpread({ spreads, day, lastDay, units }, stage),
  };
});

const radiusTable = derive({ spreads, units }, ({ spreads, units }) =>
  tableOf("wetted-radius", `Wetted radius from the pot’s centre, ${unitOf("length", units)}`, TOLD_DAYS, [
    ["day", (day) => day, 0],
    ...spreads.map(
      ({ name, radiusOn }): Column<number> => [name, (day) => fromModel(radiusOn(day), "length", units), 1],
    ),
  ]),
);

const ownTable = derive({ own, units }, ({ own: { of, runs }, units }) => {
  const { seepageLitres, drainageLitres, waterLevelDepth } = runs.own.history;
  const { radius, wettedDepth } = easyWater(of, runs.own);
  const on = (day: number, values: readonly number[], quantity: "length" | "volume") =>
    fromModel(onDay(runs.own, values, day), quantity, units);
  const [length, volume] = [unitOf("length", units), unitOf("volume", units)];
  return tableOf("your-soil", `Your pot in ${soilName(of)}, day by day`, TOLD_DAYS, [
    ["day", (day) => day, 0],
    [`wetted radius (${length})`, (day) => on(day, radius, "length"), 1],
    [`wetted depth (${length})`, (day) => on(day, wettedDepth, "length"), 1],
    [`water given (${volume})`, (day) => on(day, seepageLitres, "volume"), 2],
    [`lost below (${volume})`, (day) => on(day, drainageLitres, "volume"), 2],
    [`pot level below the soil surface (${length})`, (day) => on(day, waterLevelDepth, "length"), 1],
  ]);
});

const workings = derive({ own, units }, ({ own: { of, runs, accuracy }, units }): Block[] => {
  return [
    `${soilSentence(of.soil)} ${parameterWords(of.soil.parameters, units)}`,
    ...(of.bedMix
      ? [
          `On top of it, ${formatBoth(of.bedMix.depth, "length", units)} deep, lies the bed mix. ${soilSentence(of.bedMix)} ${parameterWords(of.bedMix.parameters, units)}`,
        ]
      : []),
    `Easy water for ${cropName(of)} ends at a suction of ${formatSuction(of.crop.easyWaterHead)}${cropSource(of)}. The soil starts at ${formatSuction(of.startHead)}.`,
    runSentence(of, runs.own, accuracy),
  ];
});

/** Suction that soil near a full pot may hold in loam, cm: a second case beside soaked soil. */
const moistSuction = 51;

const potWords = derive({ own, units }, ({ own: { of }, units }): Block[] => {
  const pot = buildPot(of.pot);
  const { conductance } = walls().ranges;
  const given = (suction: number, share = 1) =>
    format(share * releaseIntoSuction(pot, pot.fullDepth, suction), "flow", units);
  const own = pot.wallConductivity / pot.wallThickness;
  const [least, most] = [given(0, conductance.min / own), given(0, conductance.max / own)];
  return [
    `Full to the rim it holds ${formatBoth(pot.capacity / CM3_PER_LITRE, "volume", units)}. Its wall then passes ${given(0)} into soaked soil, and ${given(moistSuction)} into soil that holds its water at ${formatSuction(-moistSuction)} all around. Published walls would pass ${least} to ${most} into soaked soil: pots that look alike differ that much.`,
    ...(of.drainHoleDiameter > 0 ? [stopperSentence(of.drainHoleDiameter, units)] : []),
    ...(of.pot.plugLeakLitres > 0
      ? [`The plug is taken to leak: ${format(of.pot.plugLeakLitres, "flow", units)} while the pot is full.`]
      : []),
  ];
});

function stopperSentence(hole: number, units: UnitSystem): string {
  const { smallEnd, largeEnd } = stopperFor(hole);
  const [narrow, wide] = [smallEnd, largeEnd].map((end) => formatBoth(end, "length", units));
  return `A tapered stopper, ${narrow} at its narrow end and ${wide} at its wide end, closes the drain hole of ${formatBoth(hole, "length", units)} (common practice, no source).`;
}

function parameterWords({ thetaR, thetaS, alpha, n, Ks, l }: VanGenuchtenParameters, units: UnitSystem): string {
  return `Holding water: θr ${thetaR}, θs ${thetaS}, α ${alpha} per cm, n ${n}. Passing water: Ks ${format(Ks, "conductivity", units)}, l ${l}.`;
}

function soilSentence({ className }: Pick<Plan["soil"], "className">): string {
  if (className === null) return "Your own soil parameters.";
  const { citation, flag } = sourceOf(textureClasses(), rowNamed(textureClasses(), className), "mean");
  return `The mean of all soils called ${className} (${citation} Value: ${flag}.)`;
}

function cropSource({ crop }: Plan): string {
  const row = crops().rows.find(({ name }) => name === crop.name);
  if (!row || crop.easyWaterHead !== easyWaterOf(row).highDemand) return "";
  const { citation, flag } = sourceOf(crops(), row, "easyWaterHead");
  const standIn = row.easyWaterLike === undefined ? "" : `, for ${row.easyWaterLike}, which stands in (our own choice)`;
  return ` (${citation} Value: ${flag}${standIn}; for a day of high demand)`;
}

export const notebook = defineNotebook({
  name: "how-far-does-water-spread",
  question: "How far does water spread from a buried clay pot?",
  answer,
  picture,
  controls: [
    { heading: "Time", underPicture: true, controls: [dayControl] },
    { heading: "Soil", controls: [...groups.soil, ...groups.bedMix, ...groups.start] },
    { heading: "Pot", controls: [potSize, ...groups.pot] },
    { heading: "Wall and filling", controls: [...groups.wall, ...groups.filling] },
    { heading: "Crop", controls: groups.crop },
  ],
  sections: [
    { heading: "Your pot and its wall", content: [potWords] },
    { heading: "The same pot in sand, loam and clay", content: [comparison, radiusTable, meanSoil] },
    {
      heading: "How it was worked out",
      content: [
        "Water seeps through the wet part of the wall, driven by the water’s own height and by the suction of the soil outside. From there fine pores draw it to drier soil on all sides, and its weight draws it down.",
        flowEquation,
        ownTable,
        workings,
      ],
    },
    {
      heading: "Words",
      content: explained(
        "easy water",
        "wetted radius",
        "wetting front",
        "suction",
        "soil moisture",
        "pot level",
        "refill",
      ),
    },
  ],
  limits: [...modelLimits, ...cautions],
});
