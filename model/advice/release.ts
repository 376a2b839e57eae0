import { range } from "d3-array";
import type { Run } from "../flow/run.ts";
import type { Plan } from "../plan.ts";
import { CM3_PER_LITRE } from "../units/units.ts";
import { onDay } from "./history.ts";

/** What became of the water that the pot gave, litres. */
export interface WaterGiven {
  total: number;
  /** Given on each day until then, the first one first. */
  byDay: number[];
  /** Deeper than the crop's deepest roots by then, or gone through the region's bottom. */
  lostBelowRoots: number;
  /** Share of `total`; 0 when nothing was given. */
  lostShare: number;
}

/** How the water given by a kept day, the run's end unless named, was spread over days and depths. */
export function waterGiven(plan: Plan, run: Run, lastDay = run.frames.at(-1)!.day): WaterGiven {
  const { seepageLitres, drainageLitres } = run.history;
  const givenBy = (day: number) => onDay(run, seepageLitres, day);
  const total = givenBy(lastDay);
  const lostBelowRoots = litresBelow(run, plan.crop.deepestRoots, lastDay) + onDay(run, drainageLitres, lastDay);
  return {
    total,
    byDay: range(Math.floor(lastDay + 1e-9)).map((day) => givenBy(day + 1) - givenBy(day)),
    lostBelowRoots,
    lostShare: total > 0 ? lostBelowRoots / total : 0,
  };
}

/** Water gained since the start below a depth (cm), on a kept day; a row that the depth cuts counts in proportion. */
function litresBelow({ grid, frames, startTheta }: Run, depth: number, keptDay: number): number {
  const { rEdges, dEdges, cellAt, V } = grid;
  const { theta } = frames.find(({ day }) => day === keptDay)!;
  const columns = rEdges.length - 1;
  const shareBelow = (j: number) => (dEdges[j + 1]! - Math.max(dEdges[j]!, depth)) / (dEdges[j + 1]! - dEdges[j]!);
  const counted = new Set<number>();
  let sum = 0;
  cellAt.forEach((cell, k) => {
    const share = shareBelow(Math.floor(k / columns));
    if (cell < 0 || share <= 0 || counted.has(cell)) return;
    counted.add(cell);
    sum += share * V[cell]! * (theta[cell]! - startTheta);
  });
  return sum / CM3_PER_LITRE;
}

/** How long the first filling lasts. */
export type FillingLasts =
  /** A float keeps the level. */
  | { kind: "held" }
  | { kind: "empty"; day: number }
  /** Not empty when it was filled again, or by the run's end: what was left then, as a share of the filling. */
  | { kind: "notEmpty"; day: number; shareLeft: number };

export function fillingLasts(plan: Plan, run: Run, capacityLitres: number): FillingLasts {
  if (plan.filling.kind === "float") return { kind: "held" };
  if (run.firstEmptyDay !== null) return { kind: "empty", day: run.firstEmptyDay };
  const lastDay = run.history.day.at(-1)!;
  const day = plan.filling.kind === "every" ? Math.min(plan.filling.days, lastDay) : lastDay;
  return { kind: "notEmpty", day, shareLeft: 1 - onDay(run, run.history.seepageLitres, day) / capacityLitres };
}
