import { quantile } from "d3-array";
import { entry, present } from "../input/lists.ts";
import type { PottedGround } from "../plan/planPart.ts";
import { fillingWatched, OUTCOME_DAYS, type Outcome } from "./outcome.ts";
import { type SowingAgreement, sowingAgreement } from "./sowingAgreement.ts";

/** The middle of the members' values, and the limits that one in ten lies below and one in ten above. */
export interface Band {
  low: number;
  median: number;
  high: number;
}

/** How the answers differ over the solved members. cm, day. */
export interface Bands {
  solved: number;
  /** Members whose run failed; they are in no band. */
  failed: number;
  /** Easy-water radius from the axis, and depth on it, on each of `OUTCOME_DAYS`. */
  radius: (Band & { day: number })[];
  depth: (Band & { day: number })[];
  sowing: {
    /** Of each limit by itself, distances from the wall; members without a band count with where their limits lie. */
    inner: Band;
    outer: Band;
    agreement: SowingAgreement;
  };
  emptying: Emptying;
}

/** How long the first filling lasts. */
export type Emptying =
  /** A float keeps the level. */
  | { kind: "held" }
  /** Days; null: not within `watched` days. `share` of the members are empty by then. */
  | { kind: "days"; watched: number; share: number; low: number | null; median: number | null; high: number | null };

/** The bands over any number of outcomes, in any order; null where none of them is solved. */
export function bandsOf(plan: PottedGround, outcomes: readonly Outcome[]): Bands | null {
  const solved = outcomes.filter(({ trouble }) => trouble === null);
  if (solved.length === 0) return null;
  const byDay = (name: "radius" | "depth") =>
    OUTCOME_DAYS.map((day, k) => ({ day, ...bandOf(solved.map((outcome) => entry(outcome[name], k))) }));
  return {
    solved: solved.length,
    failed: outcomes.length - solved.length,
    radius: byDay("radius"),
    depth: byDay("depth"),
    sowing: {
      inner: bandOf(solved.map(({ sowing }) => sowing.inner)),
      outer: bandOf(solved.map(({ sowing }) => sowing.outer)),
      agreement: sowingAgreement(solved),
    },
    emptying: emptyingOf(plan, solved),
  };
}

/**
 * The band of some values, in their own unit: in proportion between the two nearest values (definition 7 of Hyndman &
 * Fan 1996, Am. Stat. 50:361-365).
 */
export function bandOf(values: readonly number[]): Band {
  const at = (p: number) => present(quantile(values, p), "value to make a band of");
  return { low: at(0.1), median: at(0.5), high: at(0.9) };
}

/** Days; later than any run's end, yet small enough that rounding of a percentile's place adds nothing. */
const LATER = 1e6;

/** A member that is not empty when watching ends empties later, who knows when: it still has its place in the order. */
function emptyingOf(plan: PottedGround, solved: readonly Outcome[]): Emptying {
  if (plan.filling.kind === "float") return { kind: "held" };
  const watched = fillingWatched(plan);
  const { low, median, high } = bandOf(solved.map(({ emptyDay }) => emptyDay ?? LATER));
  const known = (day: number) => (day <= watched ? day : null);
  const share = solved.filter(({ emptyDay }) => emptyDay !== null).length / solved.length;
  return { kind: "days", watched, share, low: known(low), median: known(median), high: known(high) };
}
