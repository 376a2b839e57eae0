import type { Assembly } from "./assembly.ts";
import type { Moment, PotState } from "./boundary.ts";
import { CALM, type Spell } from "./problem.ts";
import type { LevelLaw, StageResult, StageSolver } from "./stage.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * Two implicit stages of equal weight γ = 1 − 1/√2 (Alexander 1977, SIAM J. Numer. Anal. 14:1006-1021): second order,
 * L-stable, and without need of a flow from before, so that a refill may fall between two steps.
 *
 *   V (θ₁ − θ) = γ dt F₁,   V (θ₂ − θ) = (1 − γ) dt F₁ + γ dt F₂,   θ at the end = θ₂
 */
const GAMMA = 1 - Math.SQRT1_2;

/**
 * How far a stage's first guess goes along the last known change of the cells: less than all of it, as most changes slow
 * down (found by counting iterations on drawn sands, loams and clays).
 */
const FIRST_SHARE = 0.8;
const SECOND_SHARE = 0.6;

/** The state that one step takes to the next; cm³ and cm. */
export interface FlowState {
  t: number;
  /** Unknown of the solver by cell. */
  u: Float64Array;
  /**
   * Water content by cell as the flows account for it: what Newton's method left over is carried into the next step and
   * not lost, so that water is conserved to rounding.
   */
  theta: Float64Array;
  /** Water that has left the pot since it was last filled, less rain that it has caught. */
  release: number;
  /** What an open pot has lost to the air and over its rim since the start, less the rain that it has caught. */
  potLoss: number;
  /** Poured into the pot since the start; 0 where a float holds the level. */
  poured: number;
  /** Water through each boundary since the start, into the soil. */
  entered: Float64Array;
  pot: PotState;
}

export interface StepTolerance {
  /** Error of the stored water allowed in one step, cm³. */
  step: number;
  /** Sum of |residuals| allowed in a stage, cm³. */
  newton: number;
}

export interface StepResult {
  isSolved: boolean;
  iterations: number;
  /** Estimated error over the allowed one. */
  error: number;
  /** As in `StageResult`. */
  misfit: number;
  worstCell: number;
}

export interface Stepper {
  /** Tries a step from `state`; the outcome is in `next`, which is only good when `isSolved`. */
  attempt(state: FlowState, dt: number, tolerance: StepTolerance, law: LevelLaw | undefined): StepResult;
  readonly next: FlowState;
  /** Forgets the course of the last step, for the one after a sudden change. */
  forget(): void;
}

/** The start, its cells those that the next step begins with. */
export function flowState(system: Assembly, u: Float64Array, pot: PotState): FlowState {
  const { cells } = system.kernel;
  cells.u.set(u);
  system.evaluate({ dw: 0, isEmpty: true }, { t: 0, spell: CALM });
  cells.uStart.set(u);
  cells.thetaStart.set(cells.theta);
  return { ...emptyState(system), u: cells.uStart, theta: cells.thetaStart, pot: { ...pot } };
}

const emptyState = ({ boundaries, kernel: { cells } }: Assembly): FlowState => ({
  t: 0,
  u: cells.u,
  theta: cells.thetaNext,
  release: 0,
  potLoss: 0,
  poured: 0,
  entered: new Float64Array(boundaries.length),
  pot: { dw: 0, isEmpty: true },
});

/** Steps the state of the system's cells. */
export function stepper(system: Assembly, solver: StageSolver, spellAt: (t: number) => Spell = () => CALM): Stepper {
  const { kernel, flows, release } = system;
  const { loops, cells } = kernel;
  const [rate, stageRate] = [kernel.addressOf("rate"), kernel.addressOf("stageRate")];
  const next = emptyState(system);
  const totals = (weight: number, sums: Float64Array) => {
    flows.forEach(({ sums: [Q = 0] }, k) => {
      sums[k]! += weight * Q;
    });
  };

  function attempt(state: FlowState, dt: number, tolerance: StepTolerance, law: LevelLaw | undefined): StepResult {
    const weight = GAMMA * dt;
    const spell = spellAt(state.t);
    const momentAfter = (time: number): Moment => ({ t: state.t + time, spell });
    const lossOf = ({ outflow }: StageResult) => (law ? outflow - release.Q : 0);
    Object.assign(next.pot, state.pot);
    next.entered.set(state.entered);
    next.poured = state.poured;
    loops.guess(rate, FIRST_SHARE * weight);
    cells.known.set(state.theta);
    const first = solver.solve(
      { weight, knownRelease: state.release, tolerance: tolerance.newton, moment: momentAfter(weight) },
      next.pot,
      state.release,
      law,
    );
    if (!first.isSolved) return { ...first, error: Number.NaN };
    totals(dt - weight, next.entered);
    loops.endFirstStage(weight, dt - weight);
    const toPot = system.giveBack(dt - weight, next.entered);
    const knownRelease = state.release + (dt - weight) * first.outflow - toPot;
    const firstLoss = (dt - weight) * lossOf(first);
    loops.guess(stageRate, SECOND_SHARE * dt);
    const second = solver.solve(
      { weight, knownRelease, tolerance: tolerance.newton, moment: momentAfter(dt) },
      next.pot,
      first.release,
      law,
    );
    const iterations = first.iterations + second.iterations;
    if (!second.isSolved) return { ...second, iterations, error: Number.NaN };
    totals(weight, next.entered);
    const difference = loops.endSecondStage(weight, dt);
    next.release = knownRelease + weight * second.outflow;
    if (law) next.pot.dw = law.levelAt(next.release);
    next.potLoss = state.potLoss + firstLoss + weight * lossOf(second);
    next.t = state.t + dt;
    return { ...second, iterations, error: (ERROR_CONSTANT * weight * difference) / tolerance.step };
  }

  return { attempt, next, forget: () => void cells.rate.fill(0) };
}

/**
 * The difference of the two stages' flows over γ dt is a first-order error estimate; the second-order result is better
 * by about this factor (found by comparing with small steps on sand, loam and clay).
 */
const ERROR_CONSTANT = 0.3;

export function copyState(from: FlowState, to: FlowState): void {
  to.t = from.t;
  to.u.set(from.u);
  to.theta.set(from.theta);
  to.release = from.release;
  to.potLoss = from.potLoss;
  to.poured = from.poured;
  to.entered.set(from.entered);
  Object.assign(to.pot, from.pot);
}
