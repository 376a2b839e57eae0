import { range } from "d3-array";
import type { Run } from "../flow/run.ts";
import type { Plan } from "../plan.ts";
import { type EdgeName, edgeIndex, establishmentDays, plantedDepth } from "../planProblem.ts";
import { outlineOf } from "../pot/outline.ts";
import type { PotShape } from "../pot/pot.ts";
import { firstDayAtLeast, rangeBetween, type Series } from "./history.ts";

/** A hand's width, cm: how wide a band must be to sow in it (common practice, no source). */
export const HAND = 10;

/**
 * Where to sow, or to set the middle of a starter's root ball: distances from the pot's wall, cm, that stay moist and
 * airy at the depth of the seed, or of the root ball, from the sowing day until seedlings are up or starters have rooted.
 */
export type SowingAdvice =
  | { kind: "band"; band: SowingBand }
  /** Soil was moist enough everywhere at the start: the pot does not limit sowing yet. */
  | { kind: "everywhere"; innerLimit: number; sowingDay: number; until: number }
  /** No day offers a band; `dry`: moist soil does not reach, or does not stay; `soaked`: what stays moist is too wet. */
  | { kind: "nowhere"; reason: "dry" | "soaked"; sowingDay: number; until: number };

export interface SowingBand {
  inner: number;
  outer: number;
  sowingDay: number;
  /** Last day for which the band was held against the run. */
  until: number;
  /** What sets the inner limit: the soaked edge, or the wall itself (a root ball keeps clear of it). */
  innerCause: "wall" | "soaked";
  isHandWide: boolean;
  /** Whether the person chose the day. */
  isDayChosen: boolean;
}

/** One distance of the ruler. */
export interface RulerMark {
  /** From the pot's wall, cm. */
  distance: number;
  /** First day on which the soil there is moist enough; null when it never is. */
  firstMoistDay: number | null;
  /** Longest the soil there is soaked without a break of the run, days in all. */
  soakedDays: number;
}

/** The run must follow `planEdges` to `lastDayOf(plan)`. */
export function sowingAdvice(plan: Plan, run: Run): SowingAdvice {
  const lastDay = run.history.day.at(-1)!;
  if (plan.sowingDay !== null) return adviceFor(plan, run, plan.sowingDay);
  const days = range(0, Math.max(lastDay - establishmentDays(plan), 0) + 1e-9, 0.5);
  const all = days.map((day) => adviceFor(plan, run, day));
  const handWide = all.find(
    (advice) => advice.kind === "everywhere" || (advice.kind === "band" && advice.band.isHandWide),
  );
  return handWide ?? widestOf(all);
}

function widestOf(all: SowingAdvice[]): SowingAdvice {
  const width = (advice: SowingAdvice) => (advice.kind === "band" ? advice.band.outer - advice.band.inner : -1);
  return all.reduce((best, advice) => (width(advice) > width(best) ? advice : best));
}

function adviceFor(plan: Plan, run: Run, sowingDay: number): SowingAdvice {
  const until = sowingDay + establishmentDays(plan);
  const { inner, innerCause, outer } = limits(plan, run, sowingDay, until);
  const when = { sowingDay, until };
  if (isMoistFromStart(plan, run)) return { kind: "everywhere", innerLimit: inner, ...when };
  if (outer <= inner)
    return { kind: "nowhere", reason: outer > 0 && innerCause === "soaked" ? "soaked" : "dry", ...when };
  const isDayChosen = plan.sowingDay !== null;
  return { kind: "band", band: { inner, outer, innerCause, ...when, isHandWide: outer - inner >= HAND, isDayChosen } };
}

/**
 * Seeds: farther than the soaked edge ever reaches, nearer than the sprouting edge ever draws back. A starter's root ball
 * keeps clear of the wall and of the soaked edge; its middle stays in easy water once watering by hand ends.
 */
function limits(plan: Plan, run: Run, from: number, until: number) {
  const { sowing } = plan;
  const wall = wallRadiusAt(plan.pot, plantedDepth(plan));
  const ball = sowing.kind === "starter" ? sowing.rootBallRadius : 0;
  const onItsOwn = sowing.kind === "starter" ? from + sowing.handWateringDays : from;
  const soaked = rangeBetween(edgeSeries(plan, run, "soaked"), from, until).greatest - wall;
  const moist = rangeBetween(edgeSeries(plan, run, "sprouting"), onItsOwn, until).least - wall;
  const innerCause: SowingBand["innerCause"] = soaked > 0 ? "soaked" : "wall";
  return { inner: Math.max(soaked, 0) + ball, outer: Math.max(moist, 0), innerCause };
}

/** The ruler from the wall outward: when each distance is first moist enough, and how long it is soaked. */
export function sowingRuler(plan: Plan, run: Run, distances: readonly number[]): RulerMark[] {
  const wall = wallRadiusAt(plan.pot, plantedDepth(plan));
  const moist = edgeSeries(plan, run, "sprouting");
  const soaked = edgeSeries(plan, run, "soaked");
  return distances.map((distance) => ({
    distance,
    firstMoistDay: firstDayAtLeast(moist, wall + distance),
    soakedDays: daysAtLeast(soaked, wall + distance),
  }));
}

function daysAtLeast({ day, value }: Series, limit: number): number {
  return day.reduce(
    (sum, d, k) => (k > 0 && value[k]! >= limit && value[k - 1]! >= limit ? sum + d - day[k - 1]! : sum),
    0,
  );
}

/** The radius of one of the plan's edges through the run. */
export function edgeSeries(plan: Plan, run: Run, name: EdgeName): Series {
  return { day: run.history.day, value: run.history.edges[edgeIndex(plan, name)]!.radius };
}

function isMoistFromStart(plan: Plan, run: Run): boolean {
  return edgeSeries(plan, run, "sprouting").value[0]! >= run.grid.rEdges.at(-1)!;
}

/** Outer radius of the pot at a depth: of its rim above it, 0 below its base. */
export function wallRadiusAt(pot: PotShape, depth: number): number {
  const outline = outlineOf(pot);
  if (depth <= outline[0]!.d) return outline[0]!.r;
  for (let k = 0; k + 1 < outline.length; k++) {
    const [p, q] = [outline[k]!, outline[k + 1]!];
    if (depth <= q.d && q.d > p.d) return p.r + ((q.r - p.r) * (depth - p.d)) / (q.d - p.d);
  }
  return 0;
}
