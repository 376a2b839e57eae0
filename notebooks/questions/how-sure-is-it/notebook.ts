import { pairs, range, rollups } from "d3-array";
import { edgeSeries, onDay } from "../../../model/public/advice.ts";
import {
  bandsOf,
  drawMembers,
  ensembleSowingDay,
  type Member,
  OUTCOME_DAYS,
  type Outcome,
  SOIL_GROUPS,
  type SowingAgreement,
} from "../../../model/public/ensemble.ts";
import { planToProblem, type Run, TOLD_DAYS } from "../../../model/public/flow.ts";
import { entry, last, type Plan, pottedGround } from "../../../model/public/plan.ts";
import { bothSystems, formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { roundTicks } from "../../figures/plotting.ts";
import type { ChoiceControl } from "../../form/controlTypes.ts";
import * as groups from "../../form/planControls.ts";
import { potSize } from "../../form/potSize.ts";
import { type Block, defineNotebook, type Figure, type Table } from "../../notebook/notebook.ts";
import { type Column, tableOf } from "../../notebook/tables.ts";
import { derive, ensemble, type Source, solution, source } from "../../runtime/cells.ts";
import { isSameData } from "../../runtime/sameData.ts";
import { plan, units } from "../../runtime/sources.ts";
import {
  AGREED_WORDS,
  bandSentence,
  type EnsembleBands,
  emptyingWords,
  finenessWords,
  hasSpread,
  noSpread,
  soilsCalled,
  spanWords,
} from "../../words/bandWords.ts";
import { cropName, dayWords, soilName } from "../../words/planWords.ts";
import { cautions, explained, modelLimits } from "../../words/words.ts";
import { drawAgreement, rulerLength } from "./agreementFigure.ts";
import { drawBand, lastDay } from "./bandFigure.ts";
import { drawEmptying } from "./emptyFigure.ts";
import { classMeanNote, comparisonBlocks, distributionTable, drawnWords, sourceWords } from "./soilDrawing.ts";

const soilCount = source<string>("soilCount");
const draw = source<string>("draw");

/** A choice of numbers. */
function numberChoice(
  cell: Source<string>,
  initial: number,
  values: readonly number[],
  words: Pick<ChoiceControl, "label" | "help">,
): ChoiceControl {
  const options = values.map((value) => ({ value: String(value), label: String(value) }));
  return { kind: "choice", style: "select", field: cell.name, cell, initial: String(initial), options, ...words };
}

const countControl = numberChoice(soilCount, 200, [50, 100, 200, 500], {
  label: "Number of soils",
  help: () => "More soils make a steadier band, and take longer.",
});

const drawControl = numberChoice(draw, 1, range(1, 11), {
  label: "Which draw",
  help: () => "The same draw gives the same soils and the same band; another shows how far chance moves it.",
});

/** At the quick setting, as all the soils are. */
const own = solution(
  derive({ plan }, ({ plan }) => ({ of: plan, problems: { own: planToProblem(plan) }, isCoarseEnough: true })),
);

/** What the soils belong to. */
interface SoilDraw {
  plan: Plan;
  sowingDay: number;
  seed: number;
  members: Member[];
}

const soils = ensemble(
  derive({ own, soilCount, draw }, ({ own: { of: plan, runs }, soilCount, draw }) => {
    const [count, seed] = [Number(soilCount), Number(draw)];
    const sowingDay = ensembleSowingDay(plan, runs.own);
    const members = hasSpread(plan) ? drawMembers(plan, { count, seed, varied: SOIL_GROUPS }) : [];
    const of: SoilDraw = { plan, sowingDay, seed, members };
    return { of, plan, members, task: { kind: "sowing" as const, sowingDay } };
  }),
);

interface SoilBands extends EnsembleBands {
  drawn: SoilDraw;
  solved: readonly Outcome[];
  failed: readonly Outcome[];
  /** None is in yet. */
  isWaiting: boolean;
}

const told = derive({ soils }, ({ soils: { of, outcomes, total, isStopped } }): SoilBands => {
  const { plan, sowingDay } = of;
  return {
    drawn: of,
    plan,
    sowingDay,
    bands: bandsOf(plan, outcomes),
    count: outcomes.length,
    total,
    solved: outcomes.filter(({ trouble }) => trouble === null),
    failed: outcomes.filter(({ trouble }) => trouble !== null),
    isWaiting: outcomes.length === 0 && total > 0 && !isStopped,
  };
});

const isOutdated = derive({ own, told }, ({ own, told }) => !isSameData(pottedGround(own.of), pottedGround(told.plan)));

const answer = derive({ own, told, isOutdated, units }, ({ own, told, isOutdated, units }) =>
  isOutdated || told.isWaiting ? meanSentence(own.of, own.runs.own, units) : bandSentence(told, units),
);

/** Until the first soils, or those of new settings, are in. */
function meanSentence(plan: Plan, run: Run, units: UnitSystem): string {
  if (!hasSpread(plan)) return noSpread;
  const reach = formatBoth(onDay(run, edgeSeries(plan, run, "easyWater").value, 7), "length", units);
  return `In the mean ${soilName(plan)}, water reaches ${reach} from the pot’s centre by day 7; how far ${soilsCalled(plan)} differ from it is being worked out.`;
}

/** Single soils drawn as lines: more would only make a blot. */
const LINES = 40;

const picture = derive({ own, told, isOutdated, units }, ({ own, told, isOutdated, units }): Figure => {
  const run = own.runs.own;
  const radii = edgeSeries(own.of, run, "easyWater");
  const points = radii.day
    .map((day, k) => ({ day, radius: entry(radii.value, k) }))
    .filter(({ day }) => day <= lastDay);
  const name = hasSpread(own.of) ? `mean ${soilName(own.of)}` : "your soil";
  const soils = told.solved.slice(0, LINES).map(({ radius }) => radius);
  const figure = { band: told.bands?.radius ?? [], soils, mean: { name, points }, isOutdated, units };
  const label = `Wetted radius against days after the first filling: ${bandLabel(told, isOutdated, units)}`;
  return {
    kind: "figure",
    name: "wetted-radius-band",
    caption: bandCaption(told, isOutdated, own.of),
    draw: (stage) => drawBand(figure, label, stage),
  };
});

function bandCaption({ plan, bands, count, total, solved }: SoilBands, isOutdated: boolean, now: Plan): string {
  const what = `How far soil moist enough for ${cropName(now)} reaches from the pot’s centre, at the depth of most roots`;
  if (!hasSpread(now)) return `${what}: in your own soil, without a band.`;
  if (isOutdated)
    return `${what}. The dashed line is the mean ${soilName(now)}; the pale band belongs to the settings before, and a new one is being worked out.`;
  if (!bands) return `${what}. The dashed line is the mean ${soilName(now)}; no other soil is worked out yet.`;
  const soFar = count < total ? ` of ${total}` : "";
  return `${what}, in ${bands.solved}${soFar} ${soilsCalled(plan)}: eight of ten lie in the band, half below its thick line; thin lines are single soils. ${dipWords(solved)}The dashed line is the mean ${soilName(plan)}, which the other notebooks speak of.`;
}

function dipWords(solved: readonly Outcome[]): string {
  const dips = solved
    .slice(0, LINES)
    .some(({ radius }) => pairs(radius).some(([before, reach]) => reach === 0 && before > 0));
  return dips ? "One that dips to nothing ran dry before the next filling. " : "";
}

function bandLabel({ bands }: SoilBands, isOutdated: boolean, units: UnitSystem): string {
  if (!bands || isOutdated) return "the band is being worked out";
  return `eight of ten soils between ${spanWords(last(bands.radius), units)} on day ${OUTCOME_DAYS.at(-1)}`;
}

const fineness = derive(
  { told, units },
  ({ told: { bands }, units }): Block => (bands ? finenessWords(bands, units) : NOTHING_YET),
);

const percent = (share: number) => `${Number((100 * share).toFixed(1))} %`;

const bandTable = derive({ told, units }, ({ told: { plan, bands }, units }): Block[] => {
  if (!bands) return [NOTHING_YET];
  const shares = [
    ["low", "1 of 10 below"],
    ["median", "half below"],
    ["high", "9 of 10 below"],
  ] as const;
  const columns = (what: "radius" | "depth") =>
    shares.map(
      ([share, words]): Column<number> => [
        `${what}, ${words} (${unitOf("length", units)})`,
        (day) => fromModel(entry(bands[what], OUTCOME_DAYS.indexOf(day))[share], "length", units),
        1,
      ],
    );
  const caption = `${bands.solved} ${soilsCalled(plan)}, day by day: how far and how deep soil moist enough for ${cropName(plan)} reaches`;
  const table = tableOf("bands", caption, TOLD_DAYS, [
    ["day", (day) => day, 0],
    ...columns("radius"),
    ...columns("depth"),
  ]);
  return [table, agreementTable(bands.sowing.agreement, actOf(plan), units)];
});

const actOf = ({ sowing }: Plan) => (sowing.kind === "seed" ? "sow" : "plant");

const agreement = derive({ told, units }, ({ told: { plan, bands, sowingDay }, units }): Block => {
  if (!bands) return NOTHING_YET;
  const { agreement } = bands.sowing;
  const act = actOf(plan);
  return {
    kind: "figure",
    name: "sowing-agreement",
    caption: `In how many of ${bands.solved} ${soilsCalled(plan)} each distance from the pot’s wall is neither too dry nor too wet to ${act} ${cropName(plan)} on day ${Number(sowingDay.toFixed(1))}. ${agreedCaption(agreement)}`,
    draw: (stage) => drawAgreement(agreement, `${act} here`, units, stage),
  };
});

/** Where no soil is solved. */
const NOTHING_YET = "There is nothing to tell yet.";

function agreedCaption({ outcome }: SowingAgreement): string {
  if (outcome.kind === "agreed") return `The dark stretch suits at least ${AGREED_WORDS}.`;
  if (outcome.kind === "none") return "None of the soils has such a distance.";
  return `No distance comes up to ${AGREED_WORDS}: whichever you choose, dig and look.`;
}

const RULER_STEP = { metric: 5, us: 2 };

function agreementTable({ shares }: SowingAgreement, act: string, units: UnitSystem): Table {
  const [system, other] = bothSystems(units);
  const shareAt = (cm: number) => shares.find(({ from, to }) => cm >= from && cm < to)?.share ?? 0;
  const distances = roundTicks(0, rulerLength, RULER_STEP[system], "length", system);
  const caption = `Share of soils in which one can ${act} at a distance from the pot’s wall`;
  return tableOf("sowing-agreement", caption, distances, [
    [`distance (${unitOf("length", system)})`, (cm) => fromModel(cm, "length", system), 0],
    [`distance (${unitOf("length", other)})`, (cm) => fromModel(cm, "length", other), 1],
    ["share of soils (%)", (cm) => 100 * shareAt(cm), 0],
  ]);
}

const emptying = derive({ told }, ({ told: { plan, bands, solved } }): Block[] => {
  if (!bands) return [NOTHING_YET];
  const { emptying } = bands;
  if (emptying.kind === "held")
    return [
      "A float keeps the level, so the pot never empties. Choose another filling above to see how long one lasts.",
    ];
  const { watched, share } = emptying;
  const isRefilled = plan.filling.kind === "every" && watched === plan.filling.days;
  const emptyDays = solved.map(({ emptyDay }) => emptyDay);
  const endWords = isRefilled ? "next filling" : "watch ends";
  const figure: Figure = {
    kind: "figure",
    name: "emptying",
    caption: `How long the first filling lasts in ${bands.solved} ${soilsCalled(plan)}: ${emptyingWords(emptying)} for eight of ten. By ${isRefilled ? "the next filling" : "the end"}, ${dayWords(watched)} after it, the pot is empty in ${percent(share)} of them.`,
    draw: (stage) => drawEmptying({ emptyDays, emptying, endWords }, stage),
  };
  const day = (value: number | null) => value ?? `more than ${watched}`;
  const table = tableOf(
    "emptying",
    "When the first filling is used up, days after it",
    [emptying],
    [
      ["1 of 10 by (days)", ({ low }) => day(low), 1],
      ["half by (days)", ({ median }) => day(median), 1],
      ["9 of 10 by (days)", ({ high }) => day(high), 1],
    ],
  );
  return [figure, table];
});

/** Stays the same while outcomes arrive, and so does what is said of it. */
const drawn = derive({ soils }, ({ soils: { of } }) => of);

const drawing = derive({ drawn, units }, ({ drawn: { plan, members, seed }, units }): Block[] => {
  const name = plan.soil.className;
  if (name === null) return [noSpread];
  return [
    ...drawnWords(plan, members, seed, units),
    distributionTable(name),
    ...sourceWords(name),
    classMeanNote(name),
  ];
});

/** By itself, so that what takes long is reckoned again for another class alone. */
const className = derive({ plan }, ({ plan }) => plan.soil.className);

const comparison = derive({ className, units }, ({ className, units }): Block[] =>
  className === null ? [noSpread] : comparisonBlocks(className, units),
);

const failures = derive({ told }, ({ told: { failed, count } }): Block[] => {
  if (count === 0) return [NOTHING_YET];
  if (failed.length === 0) return [`All of the ${count} soils that are in were worked out to the end.`];
  const reasons = rollups(
    failed,
    (group) => group.length,
    ({ trouble }) => trouble,
  );
  return [
    `${failed.length} of ${count} soils could not be worked out to the end. They are left out of every band, and told here so that nobody takes the band for more than it is:`,
    ...reasons.map(([reason, times]) => `${times}: ${reason}.`),
  ];
});

export const notebook = defineNotebook({
  name: "how-sure-is-it",
  question: "How sure is it? Soils of one name differ",
  answer,
  picture,
  basis: "Every soil is worked out at the quick setting; its own error is told below.",
  controls: [
    { heading: "Soils to draw", underPicture: true, controls: [countControl, drawControl] },
    { heading: "Soil", controls: [...groups.soil, ...groups.uncertainty, ...groups.start] },
    { heading: "Filling", controls: groups.filling },
    { heading: "Crop", controls: groups.crop },
    { heading: "Planting", controls: [...groups.sowingDay, ...groups.sowing] },
    { heading: "Pot", controls: [potSize, ...groups.pot, ...groups.wall] },
  ],
  sections: [
    { heading: "Where to sow: how many soils agree", underPicture: true, content: [agreement] },
    { heading: "How far the band itself can be trusted", underPicture: true, content: [fineness] },
    { heading: "How long a filling lasts", content: [emptying] },
    { heading: "The band in numbers", content: [bandTable] },
    { heading: "How the soils were drawn", content: [drawing] },
    { heading: "How far publications differ", content: [comparison] },
    {
      heading: "How it was worked out",
      content: [
        "For every soil the flow of water from the pot is worked out as in “How far does water spread?”. All soils are held to one sowing day: the one you chose, or the one that the mean soil advises at the quick setting.",
        failures,
      ],
    },
    { heading: "Words", content: explained("sowing band", "easy water", "wetted radius", "suction", "refill") },
  ],
  limits: [
    "The band tells how soils of one name differ, and nothing else. Pots that look alike differ as well, and so do beds: a trowel beside the first pot tells which soil is yours.",
    ...modelLimits,
    ...cautions,
  ],
});
