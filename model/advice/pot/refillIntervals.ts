/** Which days between refills carry the crop, and how the plan's own way of filling fares. */

import type { Run } from "../../flow/run.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { ENOUGH, metByInterval, metShare, TRIED_INTERVALS, type WatchedFilling } from "./refill.ts";

/** Days between refills, and the share of the water that plants want which they then get in the long run. */
export interface IntervalShare {
  days: number;
  share: number;
}

/** Of the intervals tried, the longest one that carries the crop, and the shortest that does so without a gap to it. */
export interface IntervalRange {
  shortest: number;
  longest: number;
}

/** The names under which the runs of the tried intervals are solved and found again. */
export const intervalName = (days: number): string => `${days} days`;

/** What the runs of `intervalProblem` come to, by `intervalName`; one for each of `TRIED_INTERVALS`. */
export const intervalShares = (runs: Readonly<Record<string, Run>>): IntervalShare[] =>
  TRIED_INTERVALS.map((days) => ({ days, share: metByInterval(runs[intervalName(days)]!, days) }));

/** Days between refills that carry the crop, by shares in the order of `TRIED_INTERVALS`; null where none does. */
export function enoughIntervals(tried: IntervalShare[]): IntervalRange | null {
  const last = tried.findLastIndex(({ share }) => share >= ENOUGH);
  if (last < 0) return null;
  const gap = tried.slice(0, last).findLastIndex(({ share }) => share < ENOUGH);
  return { shortest: tried[gap + 1]!.days, longest: tried[last]!.days };
}

/** The interval (days) with the largest share; the first of several. */
export const bestOf = (tried: IntervalShare[]): IntervalShare =>
  tried.reduce((best, each) => (each.share > best.share ? each : best));

/** The share, 0 to 1, at an interval that was tried, days. */
export const shareAt = (tried: IntervalShare[], days: number): number =>
  tried.find((each) => each.days === days)!.share;

/**
 * Share of what plants want, 0 to 1, that they get by the plan's own filling: from one refill to the next after a
 * fortnight; where there are none, the fortnight after the filling.
 */
export function ownShare({ filling }: PottedGround, run: Run, { metBefore }: WatchedFilling): number {
  const isRepeated = filling.kind === "float" || (filling.kind === "every" && filling.days <= TRIED_INTERVALS.at(-1)!);
  return isRepeated ? metBefore : metShare(run, 0, FORTNIGHT);
}

const FORTNIGHT = 14;

/** How refills every so many days fare, by the intervals tried and by the plan's own run. */
export type Verdict =
  | "carries"
  /** Carries in the long run, not yet after the plan's first fortnight. */
  | "catching up"
  /** Enough after the plan's first fortnight, not in the long run. */
  | "fails later"
  | "fails"
  /** Longer than any interval tried, of which the longest carries. */
  | "untried";

interface OwnInterval {
  days: number;
  share: number;
  cause: WatchedFilling["sufferCause"];
}

/** How the plan's own interval fares beside those tried: days, and shares from 0 to 1. */
export function verdictOf(
  { days, share, cause }: OwnInterval,
  carrying: IntervalRange,
  tried: IntervalShare[],
): Verdict {
  const isEnough = share >= ENOUGH;
  if (days > tried.at(-1)!.days) return carrying.longest === tried.at(-1)!.days ? "untried" : "fails";
  if (isWithin(days, carrying, tried)) {
    if (isEnough) return "carries";
    return cause === "wet" ? "fails" : "catching up";
  }
  if (!isEnough) return "fails";
  return tried.some((each) => each.share < ENOUGH && lies(each.days, days, carrying)) ? "fails later" : "carries";
}

/** Shorter than any tried counts as the shortest. */
function isWithin(days: number, { shortest, longest }: IntervalRange, tried: IntervalShare[]): boolean {
  return days <= longest && (days >= shortest || shortest === tried[0]!.days);
}

/** Whether a tried interval lies between what carries and `days`, or at it. */
function lies(triedDays: number, days: number, { shortest, longest }: IntervalRange): boolean {
  return days > longest ? triedDays > longest && triedDays <= days : triedDays < shortest && triedDays >= days;
}
