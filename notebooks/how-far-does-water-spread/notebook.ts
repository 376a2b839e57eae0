import { range } from "d3-array";
import {
  edgeIndex,
  formatBoth,
  type Plan,
  planEdges,
  planToProblem,
  type Run,
  type UnitSystem,
} from "../../model/index.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";
import { derive, solution, source } from "../lib/cells.ts";
import type { NumberControl } from "../lib/controlTypes.ts";
import { drawCrossSection } from "../lib/crossSection.ts";
import { defineNotebook, type Figure, type Table } from "../lib/notebook.ts";
import {
  cropControls,
  fillingControls,
  potControls,
  potSize,
  soilControls,
  startControls,
  wallControls,
} from "../lib/planControls.ts";
import { frameOnDay, onDay, troubleOf } from "../lib/runs.ts";
import { plan, units } from "../lib/sources.ts";
import { drawSpread, type Spread } from "./spreadFigure.ts";

const lastDay = 14;
const frameDays = range(0.5, lastDay + 0.5, 0.5);
const comparedSoils = ["sand", "loam", "clay"] as const;

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
    problems: Object.fromEntries(
      comparedSoils.map((name) => [
        name,
        planToProblem(plan, { days: frameDays, soil: rowNamed(textureClasses(), name).mean }),
      ]),
    ),
  })),
);

const soilName = ({ soil }: Plan) => soil.className ?? "soil";
const cropName = ({ crop }: Plan) => crop.name || "your crop";

/** Wetted radius on a day; undefined where the soil was moist enough from the start, so that no edge moves. */
function wettedRadius(plan: Plan, run: Run, day: number): number | undefined {
  if (plan.startHead >= planEdges(plan).easyWater.head) return undefined;
  return onDay(run, radiusHistory(plan, run), day);
}

const radiusHistory = (plan: Plan, run: Run) => run.history.edges[edgeIndex(plan, "easyWater")]!.radius;

const answer = derive({ own, day, units }, ({ own: { of, runs }, day, units }) =>
  answerSentence(of, runs.own!, day, units),
);

function answerSentence(plan: Plan, run: Run, day: number, units: UnitSystem): string {
  const soil = soilName(plan);
  const crop = cropName(plan);
  const radius = wettedRadius(plan, run, day);
  const last = wettedRadius(plan, run, lastDay);
  const trouble = troubleOf(run);
  if (trouble) return trouble;
  if (radius === undefined || last === undefined)
    return `Your ${soil} starts out moist enough for ${crop} everywhere, so no edge of wetness can be drawn yet; let it start drier to see what the pot adds.`;
  if (radius === 0)
    return `In your ${soil}, ${dayWords(day)} after the first filling, no soil at root depth is moist enough for ${crop} yet.`;
  const later = day < lastDay ? `, and ${formatBoth(last, "length", units)} after ${lastDay}` : "";
  return `In your ${soil}, soil moist enough for ${crop} reaches ${formatBoth(radius, "length", units)} from the pot’s centre after ${dayWords(day)}${later}.`;
}

const dayWords = (day: number) => (day === 1 ? "1 day" : day < 1 ? `${day * 24} hours` : `${day} days`);

const picture = derive({ own, day, units }, ({ own: { of, runs }, day, units }): Figure => {
  const run = runs.own!;
  const frame = frameOnDay(run, day);
  const { easyWater, front } = planEdges(of);
  const soil = soilName(of);
  return {
    kind: "figure",
    name: "cross-section",
    label: `Half a cross-section through the pot and the ${soil} around it after ${dayWords(frame.day)}.`,
    caption: `After ${dayWords(frame.day)} in ${soil}: inside the solid line soil is moist enough for ${cropName(of)}; the dashed line is the wetting front, as far as a trowel would show. The left edge is the middle of the pot.`,
    draw: (stage) =>
      drawCrossSection(
        {
          grid: run.grid,
          frame,
          pot: of.pot,
          edges: [
            { head: front.head, label: "wetting front", labelAt: "deepest", dash: "3 4" },
            { head: easyWater.head, label: `easy water for ${cropName(of)}`, labelAt: "widest", dash: "" },
          ],
          window: { radius: 70, depth: 80, above: 14 },
          units,
        },
        `Soil moisture around the pot, ${soil}, ${dayWords(frame.day)}`,
        stage,
      ),
  };
});

const spreads = derive({ own, compared }, ({ own, compared }): Spread[] => {
  const spread = (name: string, look: Spread["look"], of: Plan, run: Run): Spread => ({
    name,
    look,
    points: run.history.day.map((day, i) => ({ day, radius: radiusHistory(of, run)[i]! })),
  });
  const others = comparedSoils.map((name) => spread(name, name, compared.of, compared.runs[name]!));
  const isCompared = comparedSoils.some((name) => name === own.of.soil.className);
  return isCompared ? others : [...others, spread(`your ${soilName(own.of)}`, "own", own.of, own.runs.own!)];
});

const comparison = derive(
  { spreads, compared, day, units },
  ({ spreads, compared: { of }, day, units }): Figure => ({
    kind: "figure",
    name: "wetted-radius",
    label: `Wetted radius against time from the same pot in sand, loam and clay, and in your ${soilName(of)}.`,
    caption: `The same pot in other soils: how far soil moist enough for ${cropName(of)} reaches, at the depth of most roots. Finer soil draws water further sideways; in sand it sinks.`,
    draw: (stage) => drawSpread({ spreads, day, lastDay, units }, stage),
  }),
);

const toldDays = [1, 3, 7, 14];

const radiusTable = derive(
  { spreads, units },
  ({ spreads, units }): Table => ({
    kind: "table",
    name: "wetted-radius",
    caption: "Wetted radius from the pot’s centre",
    columns: [{ heading: "day", digits: 0 }, ...spreads.map(({ name }) => ({ heading: name }))],
    rows: toldDays.map((day) => [
      day,
      ...spreads.map(({ points }) => formatBoth(radiusOn(points, day), "length", units)),
    ]),
  }),
);

const radiusOn = (points: Spread["points"], day: number) => points.findLast((point) => point.day <= day + 1e-9)!.radius;

export const notebook = defineNotebook({
  name: "how-far-does-water-spread",
  question: "How far does water spread from a buried clay pot?",
  answer,
  picture,
  controls: [
    { heading: "Time", underPicture: true, controls: [dayControl] },
    { heading: "Soil", controls: [...soilControls, ...startControls] },
    { heading: "Pot", controls: [potSize, ...potControls] },
    { heading: "Wall and filling", controls: [...wallControls, ...fillingControls] },
    { heading: "Crop", controls: cropControls },
  ],
  sections: [{ heading: "The same pot in sand, loam and clay", content: [comparison, radiusTable] }],
  limits: [],
});
