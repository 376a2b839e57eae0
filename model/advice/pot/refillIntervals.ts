/** Which days between refills carry the crop, and how the plan's own way of filling fares. */

import type { Run } from "../../flow/run.ts";
import { first, last, present } from "../../input/lists.ts";
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

/** An Error where it is not among the runs. */
export const runOfInterval = (runs: Readonly<Record<string, Run>>, days: number): Run =>
  present(runs[intervalName(days)], `run of ${intervalName(days)}`);

/** What the runs of `intervalProblem` come to, by `intervalName`; one for each of `TRIED_INTERVALS`. */
export const intervalShares = (runs: Readonly<Record<string, Run>>): IntervalShare[] =>
  TRIED_INTERVALS.map((days) => ({ days, share: metByInterval(runOfInterval(runs, days), days) }));

/** Days between refills that carry the crop, by shares in the order of `TRIED_INTERVALS`; null where none does. */
export function enoughIntervals(tried: IntervalShare[]): IntervalRange | null {
  const upTo = tried.slice(0, tried.findLastIndex(({ share }) => share >= ENOUGH) + 1);
  const carrying = upTo.slice(upTo.findLastIndex(({ share }) => share < ENOUGH) + 1);
  return carrying.length > 0 ? { shortest: first(carrying).days, longest: last(carrying).days } : null;
}

/** The interval (days) with the largest share; the first of several. */
export const bestOf = (tried: IntervalShare[]): IntervalShare =>
  tried.reduce((best, each) => (each.share > best.share ? each : best));

/** The share, 0 to 1, at an interval that was tried, days. */
export const shareAt = (tried: IntervalShare[], days: number): number =>
  present(
    tried.find((each) => each.days === days),
    `interval of ${days} days`,
  ).share;

/**
 * Share of what plants want, 0 to 1, that they get by the plan's own filling: from one refill to the next after a
 * fortnight; where there are none, the fortnight after the filling.
 */
export function ownShare({ filling }: PottedGround, run: Run, { metBefore }: WatchedFilling): number {
  const isRepeated = filling.kind === "float" || (filling.kind === "every" && filling.days <= last(TRIED_INTERVALS));
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
  const { days: longestTried } = last(tried);
  if (days > longestTried) return carrying.longest === longestTried ? "untried" : "fails";
  if (isWithin(days, carrying, tried)) {
    if (isEnough) return "carries";
    return cause === "wet" ? "fails" : "catching up";
  }
  if (!isEnough) return "fails";
  return tried.some((each) => each.share < ENOUGH && lies(each.days, days, carrying)) ? "fails later" : "carries";
}

/** Shorter than any tried counts as the shortest. */
function isWithin(days: number, { shortest, longest }: IntervalRange, tried: IntervalShare[]): boolean {
  return days <= longest && (days >= shortest || shortest === first(tried).days);
}

/** Whether a tried interval lies between what carries and `days`, or at it. */
function lies(triedDays: number, days: number, { shortest, longest }: IntervalRange): boolean {
  return days > longest ? triedDays > longest && triedDays <= days : triedDays < shortest && triedDays >= days;
}
