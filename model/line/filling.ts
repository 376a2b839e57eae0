/** Pots fill from a tank whose level falls: how long it takes, and who gets how much. */
import { entry } from "../input/lists.ts";
import { type FillProblem, LineTrouble, potVolumes, tankVolume } from "./fillRates.ts";
import { begin, type FillRow, type FillRun, type FillStatus, runOn } from "./fillSteps.ts";
import { NoConvergence } from "./noConvergence.ts";
import type { Trouble } from "./solveFlows.ts";

export interface Fill {
  status: FillStatus;
  /** Where the line did not solve; null where it did, and where a joint's flow, a step of time or a moment was not found. */
  trouble: Trouble | null;
  /** When the filling ended. */
  seconds: number;
  pots: FilledPotResult[];
  /** Water left above the outlet, m³. */
  tankVolume: number;
  /** At the start and after each step of time. */
  history: FillRow[];
}

export interface FilledPotResult {
  /** When it was first full; null: never. */
  secondsToFull: number | null;
  /** When a high place of its line stood out of the tank's water, so that air stopped it; null: never. */
  secondsToAir: number | null;
  /** Water that it holds more at the end, m³; less where it gave to others. */
  gained: number;
  /** Water lost over its rim, m³. */
  overflow: number;
}

/**
 * Water is conserved by construction: what pots receive is taken from the tank. Pots become full, the tank empty, and
 * air enters, at moments that are found to rounding; in between, steps of second order keep each pot to some 1e-5 of
 * its capacity.
 */
export function fillPots(filling: FillProblem): Fill {
  const run = begin(filling);
  const start = run.now.y.slice();
  const before = potVolumes(run.course, start);
  let [status, trouble]: [FillStatus, Trouble | null] = ["trouble", null];
  try {
    status = runOn(run);
  } catch (fault) {
    if (fault instanceof LineTrouble) trouble = fault.trouble;
    else if (!(fault instanceof NoConvergence)) throw fault;
  }
  return { status, trouble, ...outcome(run, start, before) };
}

function outcome({ course, now, second, happened, history }: FillRun, start: Float64Array, before: Float64Array) {
  const { y } = now;
  const after = potVolumes(course, y);
  const pots = course.pots.map((_, i): FilledPotResult => {
    const gained = entry(after, i) - entry(before, i);
    return {
      secondsToFull: entry(happened.secondsToFull, i),
      secondsToAir: entry(happened.secondsToAir, i),
      gained,
      overflow: entry(y, i) - entry(start, i) - gained,
    };
  });
  return { seconds: second, pots, tankVolume: tankVolume(course, y), history };
}
