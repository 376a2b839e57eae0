/** What a gardener asks of a sowing band: whether it holds later too, what limits it, and whether a hand's width would do. */

import { range } from "d3-array";
import type { Run } from "../../flow/run.ts";
import { last } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { establishmentDays } from "../../problems/bareProblem.ts";
import { onDay } from "./history.ts";
import { edgeSeries, HAND, rulerOrigin, type SowingAdvice, type SowingBand, sowingAdvice } from "./sowing.ts";

/** Distances that differ by less than this are the same to a gardener, cm: our own choice. */
export const SAME = 0.5;

/** Whole days on which one could sow and still see the end of emergence, or of rooting, within the run. */
export function sowingDays(plan: PottedGround, run: Run): number[] {
  return range(0, last(run.history.day) - establishmentDays(plan) + 1e-9);
}

/** Whether the band is also good for every later whole day that the run was followed for. */
export function holdsLater(plan: PottedGround, run: Run, band: SowingBand): boolean {
  const laterDays = sowingDays(plan, run).filter((day) => day > band.sowingDay);
  const isAsGood = (sowingDay: number) => {
    const later = sowingAdvice({ ...plan, sowingDay }, run);
    return later.kind === "band" && later.band.inner <= band.inner + SAME && later.band.outer >= band.outer - SAME;
  };
  return laterDays.length > 0 && laterDays.every(isAsGood);
}

/** Whether the outer limit comes from moist soil drawing back after planting, rather than from not having come so far. */
export function driesOut(plan: PottedGround, run: Run, { sowingDay, outer }: SowingBand): boolean {
  const { sowing } = plan;
  const onItsOwn = sowing.kind === "starter" ? sowingDay + sowing.handWateringDays : sowingDay;
  const reached = onDay(run, edgeSeries(plan, run, "sprouting").value, onItsOwn) - rulerOrigin(plan.pot);
  return reached > outer + SAME;
}

/** What becomes of the rule to sow within about a hand's width of the wall; distances from it, cm. */
export type HandRule =
  | { kind: "fails"; reason: "dry" | "soaked" }
  /** What is too near the pot takes up the hand's width. */
  | { kind: "taken up"; inner: number }
  /** `inner`: not nearer than this; null where nothing need be kept. `outer`: Infinity where no limit was found. */
  | { kind: "falls short" | "holds"; inner: number | null; outer: number };

/** What the advice for the plan's soil, cm, makes of that rule. */
export function handRule(advice: SowingAdvice): HandRule {
  if (advice.kind === "nowhere") return { kind: "fails", reason: advice.reason };
  const { inner, outer } =
    advice.kind === "band" ? advice.band : { inner: advice.innerLimit, outer: Number.POSITIVE_INFINITY };
  if (inner >= HAND - SAME) return { kind: "taken up", inner };
  return { kind: outer < HAND - SAME ? "falls short" : "holds", inner: inner >= SAME ? inner : null, outer };
}
