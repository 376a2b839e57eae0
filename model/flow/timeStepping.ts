import type { LevelLaw } from "./stage.ts";
import { copyState, type FlowState, type Stepper, type StepTolerance } from "./timeStep.ts";

export interface March {
  /** Times on which a step must land, increasing; the march ends at the last. */
  stops: readonly number[];
  /** First step, and the one after a sudden change, days. */
  firstStep: number;
  toleranceAt(state: FlowState, landsOnStop: boolean): StepTolerance;
  /** How the level follows from the release now; absent where it is held. */
  levelLaw(state: FlowState): LevelLaw | undefined;
  /** Water left in the pot, cm³; absent where it cannot run out. A step lands on 0, within `emptyWithin`. */
  remaining(state: FlowState): number | undefined;
  emptyWithin: number;
}

export type MarchEvent = "step" | "stop" | "empty";

export interface MarchTrouble {
  reason: string;
  day: number;
  step: number;
  cell: number;
}

export interface MarchReport {
  event: MarchEvent;
  /** Steps taken so far, those done again not counted. */
  step: number;
}

const SMALLEST_STEP = 1e-9;
const MOST_STEPS = 100_000;
const LARGEST_GROWTH = 3;
const LARGEST_ERROR = 2;

/**
 * Steps `state` through time; after every step it holds the state reached, and the caller may change it (a refill)
 * before asking for the next. The size of a step follows the estimated error: the next one is 0.85 error^(−1/2) times
 * as long, and one with twice the allowed error is done again.
 */
export function* march(
  state: FlowState,
  stepper: Stepper,
  plan: March,
): Generator<MarchReport, MarchTrouble | undefined, undefined> {
  let dt = plan.firstStep;
  let step = 0;
  const trouble = (reason: string, cell: number): MarchTrouble => ({ reason, day: state.t, step: step + 1, cell });
  for (const stop of plan.stops) {
    while (state.t < stop) {
      const size = landing(state.t, stop, dt);
      const lands = state.t + size === stop;
      const result = stepper.attempt(state, size, plan.toleranceAt(state, lands), plan.levelLaw(state));
      if (size < SMALLEST_STEP) return trouble("the time step became too small", result.worstCell);
      if (!result.isSolved) {
        dt = size * 0.3;
        stepper.forget();
        continue;
      }
      const growth = Math.min(0.85 / Math.sqrt(result.error), LARGEST_GROWTH);
      if (result.error > LARGEST_ERROR) {
        dt = size * Math.max(growth, 0.2);
        continue;
      }
      const [before, after] = [plan.remaining(state), plan.remaining(stepper.next)];
      if (before !== undefined && after !== undefined && after < -plan.emptyWithin) {
        dt = (size * before) / (before - after);
        continue;
      }
      copyState(stepper.next, state);
      if (lands) state.t = stop;
      if (++step > MOST_STEPS) return trouble("too many time steps", result.worstCell);
      dt = lands ? Math.max(size * growth, dt) : size * growth;
      if (after !== undefined && after <= plan.emptyWithin && !state.pot.isEmpty) {
        state.pot.isEmpty = true;
        stepper.forget();
        dt = Math.min(dt, plan.firstStep);
        yield { event: "empty", step };
      }
      yield { event: lands ? "stop" : "step", step };
    }
  }
  return undefined;
}

/** A step no longer than `dt` that lands on `stop`, or leaves a step of like size before it. */
function landing(t: number, stop: number, dt: number): number {
  const left = stop - t;
  if (left <= 1.05 * dt) return left;
  return left < 2 * dt ? left / 2 : dt;
}
