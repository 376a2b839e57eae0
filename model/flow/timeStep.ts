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
 *
 * F₁ goes on for longer than its stage, and may then fill a cell beyond what it holds or empty it. The step then ends with
 * its first stage, γ dt long: the implicit Euler method, which goes beyond neither. It does so, too, where the second stage
 * has no solution.
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
  /** Net inflow by cell at this time, cm³/day. */
  inflow: Float64Array;
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
  /** How long the step has become, days: shorter than asked where it ends with its first stage. */
  size: number;
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
  return {
    ...emptyState(system),
    u: cells.uStart,
    theta: cells.thetaStart,
    inflow: cells.inflowStart,
    pot: { ...pot },
  };
}

const emptyState = ({ boundaries, kernel: { cells } }: Assembly): FlowState => ({
  t: 0,
  u: cells.u,
  theta: cells.thetaNext,
  inflow: cells.inflowNext,
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
  const enteredFirst = new Float64Array(next.entered.length);
  const totals = (weight: number, sums: Float64Array) => {
    flows.forEach(({ sums: [Q = 0] }, k) => {
      sums[k]! += weight * Q;
    });
  };

  function attempt(state: FlowState, dt: number, tolerance: StepTolerance, law: LevelLaw | undefined): StepResult {
    const weight = GAMMA * dt;
    const rest = dt - weight;
    const spell = spellAt(state.t);
    const solve = (time: number, knownRelease: number, guess: number) => {
      const moment: Moment = { t: state.t + time, spell };
      return solver.solve({ weight, knownRelease, tolerance: tolerance.newton, moment }, next.pot, guess, law);
    };
    const lossOf = ({ outflow }: StageResult) => (law ? outflow - release.Q : 0);
    const end = (size: number, given: number, lost: number) => {
      next.t = state.t + size;
      next.release = state.release + given;
      next.potLoss = state.potLoss + lost;
      if (law) next.pot.dw = law.levelAt(next.release);
    };
    Object.assign(next.pot, state.pot);
    next.entered.set(state.entered);
    next.poured = state.poured;
    loops.guess(rate, FIRST_SHARE * weight);
    cells.known.set(state.theta);
    const first = solve(weight, state.release, state.release);
    if (!first.isSolved) return { ...first, size: dt, error: Number.NaN };
    const loss = lossOf(first);
    enteredFirst.set(next.entered);
    totals(weight, enteredFirst);
    /** The first stage alone is a step, too. */
    const endWithFirst = (): StepResult => {
      const change = loops.endWithFirst(weight);
      next.entered.set(enteredFirst);
      end(weight, weight * first.outflow, weight * loss);
      return { ...first, size: weight, error: (FIRST_ORDER_ERROR * weight * change) / tolerance.step };
    };
    totals(rest, next.entered);
    loops.endFirstStage(weight, rest);
    const toPot = system.giveBack(rest, next.entered);
    const released = rest * first.outflow - toPot;
    if (loops.overshoots(weight)) return endWithFirst();
    loops.guess(stageRate, SECOND_SHARE * dt);
    const second = solve(dt, state.release + released, first.release);
    const iterations = first.iterations + second.iterations;
    if (!second.isSolved) {
      const short = endWithFirst();
      system.evaluate(next.pot, { t: next.t, spell });
      return { ...short, iterations, error: Math.max(short.error, 1) };
    }
    totals(weight, next.entered);
    const difference = loops.endSecondStage(weight, dt);
    end(dt, released + weight * second.outflow, rest * loss + weight * lossOf(second));
    return { ...second, size: dt, iterations, error: (ERROR_CONSTANT * weight * difference) / tolerance.step };
  }

  return { attempt, next, forget: () => void cells.rate.fill(0) };
}

/**
 * The difference of the two stages' flows over γ dt is a first-order error estimate; the second-order result is better
 * by about this factor (found by comparing with small steps on sand, loam and clay).
 */
const ERROR_CONSTANT = 0.3;
/** Of the implicit Euler method, by the change of the flow since the last step. */
const FIRST_ORDER_ERROR = 0.5;

export function copyState(from: FlowState, to: FlowState): void {
  to.t = from.t;
  to.u.set(from.u);
  to.theta.set(from.theta);
  to.inflow.set(from.inflow);
  to.release = from.release;
  to.potLoss = from.potLoss;
  to.poured = from.poured;
  to.entered.set(from.entered);
  Object.assign(to.pot, from.pot);
}
