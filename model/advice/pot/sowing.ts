import { greatest, range } from "d3-array";
import type { Run } from "../../flow/run.ts";
import { entry, first, last, present } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import type { PotShape } from "../../pot/pot.ts";
import { outlineOf, wallRadiusAt } from "../../pot/potOutline.ts";
import { type EdgeName, edgeIndex, establishmentDays, plantedDepth } from "../../problems/bareProblem.ts";
import { daysAtLeast, firstDayAtLeast, isAtSide, lastingFrom, rangeBetween, type Series } from "./history.ts";

/** A hand's width, cm: how wide a band must be to sow in it (common practice, no source). */
export const HAND = 10;

/**
 * Where to sow, or to set the middle of a starter's root ball: distances along the soil surface from the pot's wall, cm,
 * that stay moist and airy at the depth of the seed, or of the root ball, from the sowing day until seedlings are up or
 * starters have rooted.
 */
export type SowingAdvice =
  | { kind: "band"; band: SowingBand }
  /** Soil was moist enough everywhere at the start and stays so: the pot does not limit sowing yet. */
  | ({ kind: "everywhere"; innerLimit: number } & SowingTime)
  /**
   * No band on the chosen day, or on any day. `dry`: moist soil does not reach so far as a seed or a root ball can be set,
   * or does not stay; `soaked`: what stays moist is too wet.
   */
  | ({ kind: "nowhere"; reason: "dry" | "soaked" } & SowingLimits & SowingTime);

export interface SowingTime {
  sowingDay: number;
  /** Last day for which the band was held against the run. */
  until: number;
  /** Whether the person chose the day; else the first, by half days, with a band a hand wide, or with the widest one. */
  isDayChosen: boolean;
}

export interface SowingLimits {
  /** Nearer than this soil is soaked, or the pot is in the way. */
  inner: number;
  /** Farther than this soil is too dry; less than `inner` where no distance will do. */
  outer: number;
  /** What sets the inner limit: the soaked edge, or the wall itself (a root ball keeps clear of it). */
  innerCause: "wall" | "soaked";
}

export interface SowingBand extends SowingTime, SowingLimits {
  isHandWide: boolean;
  /** Moist soil goes on to the region's side: the outer limit lies somewhere beyond. */
  isOuterAtLeast: boolean;
}

/** One distance of the ruler. */
export interface RulerMark {
  /** Along the soil surface from the pot's wall, cm. */
  distance: number;
  /** First day on which the soil there is moist enough; null when it never is. */
  firstMoistDay: number | null;
  /** First day from which the soil there stays moist enough to the run's end, refills included; null when it does not. */
  lastingMoistDay: number | null;
  /**
   * First day on which easy water reaches the near side of a starter's root ball whose middle stands there: until then it
   * lives on water by hand alone. For seeds the same as `firstMoistDay`.
   */
  ballReachedDay: number | null;
  /** Days in all on which the soil there is soaked. */
  soakedDays: number;
}

/**
 * On which day, and how far from the wall (cm), seeds or starters find water. The run must follow `planEdges` to
 * `lastDayOf(plan)`. Throws a RangeError where it ends before the first band could be told.
 */
export function sowingAdvice(plan: PottedGround, run: Run): SowingAdvice {
  const needed = establishmentDays(plan);
  const lastSowingDay = last(run.history.day) - needed;
  if (lastSowingDay < (plan.sowingDay ?? 0) - 1e-9) throw tooShort(plan, run);
  if (plan.sowingDay !== null) return adviceFor(plan, run, plan.sowingDay);
  const all = range(0, lastSowingDay + 1e-9, 0.5).map((day) => adviceFor(plan, run, day));
  const wideEnough = all.find(
    (advice) => advice.kind === "everywhere" || (advice.kind === "band" && advice.band.isHandWide),
  );
  return wideEnough ?? widestOf(all);
}

function tooShort(plan: PottedGround, { history, status }: Run): RangeError {
  const until = (plan.sowingDay ?? 0) + establishmentDays(plan);
  return new RangeError(
    `the run (${status}) ends on day ${history.day.at(-1)}; to tell where to sow it must reach day ${until}`,
  );
}

/** The widest band; where there is none, the day on which moist soil reaches farthest. */
function widestOf(all: SowingAdvice[]): SowingAdvice {
  const bands = all.filter((advice) => advice.kind === "band");
  const nowhere = all.filter((advice) => advice.kind === "nowhere");
  const widest = greatest(bands, ({ band }) => band.outer - band.inner) ?? greatest(nowhere, ({ outer }) => outer);
  return present(widest, "day to sow on");
}

function adviceFor(plan: PottedGround, run: Run, sowingDay: number): SowingAdvice {
  const when = {
    sowingDay,
    until: sowingDay + establishmentDays(plan),
    isDayChosen: plan.sowingDay !== null,
  };
  const { clear, moistRadius, ...limits } = limitsOf(plan, run, sowingDay);
  const { inner, outer } = limits;
  if (outer <= inner) return { kind: "nowhere", reason: outer > clear ? "soaked" : "dry", ...limits, ...when };
  const isOuterAtLeast = isAtSide(run, moistRadius);
  if (isOuterAtLeast && isMoistFromStart(plan, run)) return { kind: "everywhere", innerLimit: inner, ...when };
  return { kind: "band", band: { ...limits, ...when, isHandWide: outer - inner >= HAND, isOuterAtLeast } };
}

/**
 * The limits for one sowing day, whatever lies between them. The run must reach `sowingDay + establishmentDays(plan)`.
 */
export function sowingLimits(
  plan: PottedGround,
  run: Run,
  sowingDay: number,
): SowingLimits & Pick<SowingBand, "isOuterAtLeast"> {
  const { clear: _clear, moistRadius, ...limits } = limitsOf(plan, run, sowingDay);
  return { ...limits, isOuterAtLeast: isAtSide(run, moistRadius) };
}

/**
 * Seeds: farther than the soaked edge ever reaches, nearer than the sprouting edge ever draws back. A starter's root ball
 * keeps clear of the wall and of the soaked edge; once watering by hand ends its middle stays in easy water, so that the
 * half of its roots towards the pot drinks even if none has grown out of the ball. `clear` is the inner limit that the pot
 * itself sets, `moistRadius` the outer limit from the axis.
 */
function limitsOf(plan: PottedGround, run: Run, sowingDay: number) {
  const until = sowingDay + establishmentDays(plan);
  const origin = rulerOrigin(plan.pot);
  const { radius: ball, onItsOwn } = rootBall(plan);
  const wall = Math.max(origin, widestWall(plan.pot, plantedDepth(plan), ball));
  const soaked = rangeBetween(edgeSeries(plan, run, "soaked"), sowingDay, until).greatest;
  const moistRadius = rangeBetween(edgeSeries(plan, run, "sprouting"), sowingDay + onItsOwn, until).least;
  const innerCause: SowingLimits["innerCause"] = soaked > wall ? "soaked" : "wall";
  return {
    inner: Math.max(soaked, wall) + ball - origin,
    outer: Math.max(moistRadius - origin, 0),
    innerCause,
    clear: wall + ball - origin,
    moistRadius,
  };
}

/** A seed has none, and is on its own from the first day. */
function rootBall({ sowing }: PottedGround): { radius: number; onItsOwn: number } {
  if (sowing.kind === "seed") return { radius: 0, onItsOwn: 0 };
  return { radius: sowing.rootBallRadius, onItsOwn: sowing.handWateringDays };
}

/**
 * The ruler from the wall outward, at distances in cm: when each distance is first moist enough, and how long it is
 * soaked.
 */
export function sowingRuler(plan: PottedGround, run: Run, distances: readonly number[]): RulerMark[] {
  const origin = rulerOrigin(plan.pot);
  const { radius: ball } = rootBall(plan);
  const moist = edgeSeries(plan, run, "sprouting");
  const soaked = edgeSeries(plan, run, "soaked");
  return distances.map((distance) => ({
    distance,
    firstMoistDay: firstDayAtLeast(moist, origin + distance),
    lastingMoistDay: lastingFrom(moist, origin + distance),
    ballReachedDay: firstDayAtLeast(moist, origin + Math.max(distance - ball, 0)),
    soakedDays: daysAtLeast(soaked, origin + distance),
  }));
}

/** The radius of one of the plan's edges through the run, cm by day. */
export function edgeSeries(plan: PottedGround, run: Run, name: EdgeName): Series {
  return { day: run.history.day, value: entry(run.history.edges, edgeIndex(plan, name)).radius };
}

function isMoistFromStart(plan: PottedGround, run: Run): boolean {
  return isAtSide(run, first(edgeSeries(plan, run, "sprouting").value));
}

/** Radius from which the ruler counts, cm: the pot's wall at the soil surface, or the rim of a pot sunk below it. */
export function rulerOrigin(pot: PotShape): number {
  return wallRadiusAt(pot, 0);
}

/** Greatest outer radius of the pot within some height above and below a depth. */
function widestWall(pot: PotShape, depth: number, height: number): number {
  const [top, bottom] = [depth - height, depth + height];
  const between = outlineOf(pot).filter(({ d }) => d >= top && d <= bottom);
  return Math.max(...[top, bottom].map((d) => wallRadiusAt(pot, d)), ...between.map(({ r }) => r));
}
