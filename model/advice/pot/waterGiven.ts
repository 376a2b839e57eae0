import { pairs, range, sum } from "d3-array";
import type { Run } from "../../flow/run.ts";
import { entry, last, pairAt, present } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { CM3_PER_LITRE } from "../../units/factors.ts";
import { onDay } from "./history.ts";

/** What became of the water that the pot gave, litres. */
export interface WaterGiven {
  total: number;
  /** Given on each day until then, the first one first; the last one may be cut short. */
  byDay: number[];
  /** Deeper than the crop's deepest roots by then, or gone through the region's bottom. */
  lostBelowRoots: number;
  /** Share of `total`; 0 when nothing was given. */
  lostShare: number;
}

/** Share of the water given; settings differ by 1e-5 of it, so that less cannot be told from none. */
const LEAST_LOST = 1e-4;

/** How the water given by a kept day, the run's end unless named, was spread over days and depths; litres. */
export function waterGiven(plan: PottedGround, run: Run, lastDay = last(run.frames).day): WaterGiven {
  const givenBy = (day: number) => onDay(run, run.history.seepageLitres, day);
  const total = givenBy(lastDay);
  const kept = litresAbove(run, plan.crop.deepestRoots, lastDay);
  const lost = Math.min(total - kept, total);
  const lostBelowRoots = lost > LEAST_LOST * total ? lost : 0;
  return {
    total,
    byDay: pairs([...range(0, lastDay - 1e-9), lastDay].map(givenBy), (from, to) => to - from),
    lostBelowRoots,
    lostShare: total > 0 ? lostBelowRoots / total : 0,
  };
}

/**
 * The pot's water above a depth (cm), on a kept day: what soil there holds more than soil at the same depth at the
 * region's side, out of the pot's reach, so that water which a wet start drains by itself is not laid to the pot. A row
 * that the depth cuts counts in proportion.
 */
function litresAbove({ grid, frames }: Run, depth: number, keptDay: number): number {
  const { rEdges, dEdges, cellAt, V } = grid;
  const kept = frames.find(({ day }) => day === keptDay);
  const { theta } = present(kept, `field kept on day ${keptDay}`);
  const columns = rEdges.length - 1;
  const counted = new Set([-1]);
  const volume = sum(cellAt, (cell, k) => {
    if (counted.has(cell)) return 0;
    counted.add(cell);
    const row = Math.floor(k / columns);
    const [top, bottom] = pairAt(dEdges, row + 1);
    const share = Math.min(Math.max((depth - top) / (bottom - top), 0), 1);
    const outOfReach = entry(theta, entry(cellAt, (row + 1) * columns - 1));
    return share * entry(V, cell) * (entry(theta, cell) - outOfReach);
  });
  return volume / CM3_PER_LITRE;
}

/** How long the first filling lasts. */
export type FillingLasts =
  /** A float keeps the level. */
  | { kind: "held" }
  | { kind: "empty"; day: number }
  /** Not empty when it was filled again, or by the run's end: what was left then, as a share of the filling. */
  | { kind: "notEmpty"; day: number; shareLeft: number };

/** The day on which the pot runs empty, or the share of its water left at the next refill or the run's end. */
export function fillingLasts({ filling }: PottedGround, run: Run, capacityLitres: number): FillingLasts {
  if (filling.kind === "float") return { kind: "held" };
  const lastDay = last(run.history.day);
  const day = filling.kind === "every" ? Math.min(filling.days, lastDay) : lastDay;
  if (run.firstEmptyDay !== null && run.firstEmptyDay <= day) return { kind: "empty", day: run.firstEmptyDay };
  return { kind: "notEmpty", day, shareLeft: 1 - onDay(run, run.history.seepageLitres, day) / capacityLitres };
}
