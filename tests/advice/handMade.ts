import { readingDay } from "../../model/advice/pot/spacing.ts";
import { emptyHistory } from "../../model/flow/recorder.ts";
import type { GridLines, Run } from "../../model/flow/run.ts";
import { soundValue } from "../../model/input/faults.ts";
import { last } from "../../model/input/lists.ts";
import { type Plan, resolvePlan } from "../../model/plan/plan.ts";
import { planEdges } from "../../model/problems/bareProblem.ts";

/** A bed with a straight pot 20 cm wide, seeds 1 cm deep that need 4 days to come up, and a look ahead of 6 days. */
export function planned(changes: object = {}): Plan {
  return soundValue(
    resolvePlan({
      version: 1,
      units: "metric",
      soil: { kind: "class", name: "loam" },
      pot: { shape: "cylinder", diameter: 20, height: 25 },
      crop: { kind: "own", easyWaterSuctionKPa: 50, deepestRoots: 30 },
      sowing: { kind: "seed", sowingDepth: 1, emergenceDays: 4, sproutingSuctionKPa: 300 },
      days: 6,
      ...changes,
    }),
  );
}

export const starter = { kind: "starter", rootBallDepth: 8, rootBallRadius: 3, handWateringDays: 2 };

/** Two columns and two rows of soil without a pot, 100 cm wide and 40 cm deep; a litre of soil in each inner cell. */
const GRID: GridLines = {
  rEdges: Float64Array.of(0, 20, 100),
  dEdges: Float64Array.of(0, 20, 40),
  rCentre: Float64Array.of(10, 60),
  dCentre: Float64Array.of(10, 30),
  V: Float64Array.of(1000, 24_000, 1000, 24_000),
  cellAt: Int32Array.of(0, 1, 2, 3),
};

export interface HandMade {
  day: number[];
  /** Radii from the axis, cm. */
  moist?: number[];
  soaked?: number[];
  seepageLitres?: number[];
  firstEmptyDay?: number;
  /** Water content of the four cells on the last day. */
  theta?: number[];
}

/** A run whose history is known because it was written down. */
export function handMade(plan: Plan, { day, firstEmptyDay, theta = [0.1, 0.1, 0.1, 0.1], ...known }: HandMade): Run {
  const zeros = day.map(() => 0);
  const { moist = zeros, soaked = zeros, seepageLitres = zeros } = known;
  const radius: Record<string, number[]> = { sprouting: moist, soaked };
  return {
    status: "finished",
    cells: 4,
    steps: day.length - 1,
    milliseconds: 0,
    balanceError: 0,
    firstEmptyDay: firstEmptyDay ?? null,
    rows: [],
    frames: [{ day: day.at(-1)!, h: new Float64Array(4), theta: Float64Array.from(theta), waterLevelDepth: 0 }],
    startTheta: new Float64Array(4).fill(0.1),
    grid: GRID,
    history: {
      ...emptyHistory({ edges: [] }),
      day,
      waterLevelDepth: zeros,
      seepageLitres,
      drainageLitres: zeros,
      edges: Object.keys(planEdges(plan)).map((name) => ({ radius: radius[name] ?? zeros, wettedDepth: zeros })),
    },
  };
}

/** A run in which the soil is as wet as a head everywhere. */
export function evenRun(plan: Plan, midwayHead: number, wettedDepth = 1000): Run {
  const run = handMade(plan, { day: [0, readingDay(plan)] });
  const frame = { ...last(run.frames), h: new Float64Array(4).fill(midwayHead) };
  const edges = run.history.edges.map((edge) => ({ ...edge, wettedDepth: [wettedDepth, wettedDepth] }));
  return { ...run, frames: [frame], history: { ...run.history, edges } };
}
