import { onDay } from "../advice/pot/history.ts";
import { type SowingAdvice, sowingAdvice, sowingLimits } from "../advice/pot/sowing.ts";
import { fillingLasts } from "../advice/pot/waterGiven.ts";
import type { GridStore } from "../flow/gridStore.ts";
import type { Progress, Run } from "../flow/run.ts";
import { entry, last } from "../input/lists.ts";
import type { PottedGround } from "../plan/planPart.ts";
import { potLitres } from "../pot/buildPot.ts";
import type { PotShape } from "../pot/pot.ts";
import { edgeIndex, establishmentDays, planToProblem } from "../problems/bareProblem.ts";
import { finishedRun, orTrouble } from "./finishedRun.ts";
import type { Member } from "./member.ts";

/** Days on which an outcome tells the wetted radius. */
export const OUTCOME_DAYS = [0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];

/** What one member's run says; small plain data that crosses between threads and stands in part files. cm, day. */
export interface Outcome {
  index: number;
  /** Why the run did not reach its end; null when it did. The other values then mean nothing. */
  trouble: string | null;
  /** Easy-water radius from the axis, at root depth, on `OUTCOME_DAYS`. */
  radius: number[];
  /** Same for the easy-water depth on the axis. */
  depth: number[];
  /**
   * Distances from the wall between which the sowing day's band lies; outer no more than inner where there is none.
   * `isOuterAtLeast`: moist soil goes on to the region's side, the outer limit lies somewhere beyond.
   */
  sowing: { inner: number; outer: number; isOuterAtLeast: boolean };
  /** Day on which the first filling is used up; null when it is not within `fillingWatched`, or the level is held. */
  emptyDay: number | null;
  /** Water given by the last of `OUTCOME_DAYS`, litres. */
  seepageLitres: number;
}

/**
 * The one sowing day that all members are held to: the plan's own, or else the one that its own run advises. Throws a
 * RangeError where that run ended too early to tell.
 */
export function ensembleSowingDay(plan: PottedGround, run: Run): number {
  return plan.sowingDay ?? dayOf(sowingAdvice(plan, run));
}

function dayOf(advice: SowingAdvice): number {
  return advice.kind === "band" ? advice.band.sowingDay : advice.sowingDay;
}

/** Runs one member at the live setting; a run that does not come to its end is its trouble. */
export function sowingCourse(
  plan: PottedGround,
  member: Member,
  sowingDay: number,
  grids?: GridStore,
): Generator<Progress, Outcome> {
  return orTrouble(sowing(plan, member, sowingDay, grids), (trouble) => troubled(member, trouble));
}

function* sowing(
  plan: PottedGround,
  member: Member,
  sowingDay: number,
  grids?: GridStore,
): Generator<Progress, Outcome> {
  const own = memberPlan(plan, member);
  const problem = planToProblem(own, { accuracy: "live", days: [lastDay(plan, sowingDay)] });
  return outcomeOf(own, yield* finishedRun(problem, grids), member.index, sowingDay);
}

/** The plan of the bed that a member is. */
export function memberPlan(
  plan: PottedGround,
  { soil, className, wallFactor, startHead, potScale }: Member,
): PottedGround {
  return {
    ...plan,
    soil: { ...plan.soil, className, parameters: soil },
    startHead,
    pot: scaled({ ...plan.pot, wallConductivity: wallFactor * plan.pot.wallConductivity }, potScale),
  };
}

/** Every length but the wall's thickness. */
function scaled(pot: PotShape, scale: number): PotShape {
  const ends = { rimDepth: scale * pot.rimDepth, outerDepth: scale * pot.outerDepth };
  switch (pot.shape) {
    case "cylinder":
      return { ...pot, ...ends, outerRadius: scale * pot.outerRadius };
    case "tapered":
      return { ...pot, ...ends, rimRadius: scale * pot.rimRadius, baseRadius: scale * pot.baseRadius };
    case "jar": {
      const [neckRadius, bellyRadius] = [scale * pot.neckRadius, scale * pot.bellyRadius];
      return {
        ...pot,
        ...ends,
        neckRadius,
        bellyRadius,
        bellyDepth: scale * pot.bellyDepth,
        baseRadius: scale * pot.baseRadius,
      };
    }
    case "profile":
      return { ...pot, ...ends, points: pot.points.map(({ r, d }) => ({ r: scale * r, d: scale * d })) };
  }
}

/** Days for which the first filling is watched: to the next one, or as far as the plan looks ahead. */
export function fillingWatched({ filling, days }: PottedGround): number {
  return filling.kind === "every" ? Math.min(filling.days, days) : days;
}

/** Long enough for the days told, the sowing band and the first filling. */
function lastDay(plan: PottedGround, sowingDay: number): number {
  const watched = plan.filling.kind === "float" ? 0 : fillingWatched(plan);
  return Math.max(last(OUTCOME_DAYS), sowingDay + establishmentDays(plan), watched);
}

function outcomeOf(plan: PottedGround, run: Run, index: number, sowingDay: number): Outcome {
  const { radius, wettedDepth } = entry(run.history.edges, edgeIndex(plan, "easyWater"));
  const { inner, outer, isOuterAtLeast } = sowingLimits(plan, run, sowingDay);
  return {
    index,
    trouble: null,
    radius: OUTCOME_DAYS.map((day) => onDay(run, radius, day)),
    depth: OUTCOME_DAYS.map((day) => onDay(run, wettedDepth, day)),
    sowing: { inner, outer, isOuterAtLeast },
    emptyDay: emptyDay(plan, run),
    seepageLitres: onDay(run, run.history.seepageLitres, last(OUTCOME_DAYS)),
  };
}

function emptyDay(plan: PottedGround, run: Run): number | null {
  const lasts = fillingLasts(plan, run, potLitres(plan.pot));
  return lasts.kind === "empty" && lasts.day <= fillingWatched(plan) ? lasts.day : null;
}

function troubled({ index }: Member, trouble: string): Outcome {
  const sowing = { inner: 0, outer: 0, isOuterAtLeast: false };
  return { index, trouble, radius: [], depth: [], sowing, emptyDay: null, seepageLitres: 0 };
}
