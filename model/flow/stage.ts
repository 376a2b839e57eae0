import { maxIndex } from "d3-array";
import type { Assembly } from "./assembly.ts";
import type { Moment, PotState } from "./boundary.ts";

/**
 * One implicit stage, V (θ(u) − known) = weight · inflow(u, dw), solved for all cells at once (`known` is a field of the
 * cells) and, while the pot's level falls, for the water S that has left it since it was last filled:
 * S − knownRelease = weight · (Q + what the open pot loses to the air).
 */
export interface ImplicitStage {
  /** γ dt, days. */
  weight: number;
  knownRelease: number;
  /** Largest sum of |residuals| accepted, cm³. */
  tolerance: number;
  moment: Moment;
}

/** How the level follows from the release; absent where the level is held or there is no pot. */
export interface LevelLaw {
  levelAt(release: number): number;
  /** d(dw)/dS. */
  slopeAt(release: number): number;
  /** Water that an open pot loses to the air, less the rain it catches, cm³/day; it changes little with the level. */
  lossAt(dw: number, moment: Moment): number;
}

export interface StageResult {
  isSolved: boolean;
  iterations: number;
  release: number;
  /** Rate at which the release grows, cm³/day; 0 where the level is held. */
  outflow: number;
  /** Sum of |residuals|, cm³; not a number where a flow was not found. */
  misfit: number;
  /** Where it is not solved: the cell with the largest residual, or with one that is not a number. */
  worstCell: number;
}

export interface StageSolver {
  /** Starts from the cells' u, leaves the solution there and the flows that belong to it in the assembly. */
  solve(stage: ImplicitStage, pot: PotState, guess: number, law: LevelLaw | undefined): StageResult;
}

/** Where Newton's method stands: the release, the sum of |residuals|, and whether that is good enough. */
interface Point {
  S: number;
  outflow: number;
  sum: number;
  isClose: boolean;
}

/** Where clay saturates, each finds a few more cells that do; shorter steps in their place would take many times as long. */
const MOST_ITERATIONS = 60;
/** A stage ends unsolved where so many leave more than this share of the sum: a shorter step is cheaper then. */
const PATIENCE = 12;
const STANDSTILL = 0.5;
const MOST_TRIES = 5;
/** A stage that takes more goes on with all multipliers of its factors. */
const FEW_ITERATIONS = 5;
/** Share of the residuals that a step may leave for its factors to serve again (found by timing live and standard runs). */
const FAST = 0.2;

/**
 * Newton's method with the level as one more row and column about the cells' matrix. The factors of a matrix serve again
 * in later stages of the same weight, as long as they lead on fast. The step is shortened when the sum of |residuals|
 * does not fall.
 */
export function stageSolver({ kernel, release, evaluate }: Assembly): StageSolver {
  const { loops, cells } = kernel;
  const [step, column] = [kernel.addressOf("step"), kernel.addressOf("column")];
  /** The stages that the factors at hand are good for. */
  let factored: { weight: number; law: LevelLaw | undefined } | undefined;

  /** Sums the absolute residuals, the level's included. */
  function measure(stage: ImplicitStage, S: number, outflow: number | undefined): Point {
    const { weight, knownRelease, tolerance } = stage;
    const ofCells = loops.measure(weight);
    const ofLevel = outflow === undefined ? 0 : Math.abs(S - knownRelease - weight * outflow);
    const sum = Math.abs(ofCells) + ofLevel;
    return { S, outflow: outflow ?? 0, sum, isClose: sum <= tolerance && ofCells >= 0 };
  }

  function factor({ weight }: ImplicitStage, S: number, law: LevelLaw | undefined, isWhole: boolean): boolean {
    if (factored?.weight === weight && factored.law === law) return true;
    factored = undefined;
    if (!kernel.factor(weight, isWhole)) return false;
    factored = { weight, law };
    if (law) loops.levelColumn(law.slopeAt(S) * weight);
    return true;
  }

  /** Undefined where the matrix has no factors. */
  function newtonStep(
    stage: ImplicitStage,
    { S, outflow }: Point,
    law: LevelLaw | undefined,
    isWhole: boolean,
  ): number | undefined {
    if (!factor(stage, S, law, isWhole)) return undefined;
    loops.newtonStep();
    if (!law) return 0;
    const slope = law.slopeAt(S) * stage.weight;
    const misfit = S - stage.knownRelease - stage.weight * outflow;
    const along = -stage.weight * loops.releaseAlong(step);
    const across = -stage.weight * loops.releaseAlong(column);
    const dS = (-misfit - along) / (1 - slope * release.dQddw - across);
    loops.takeColumn(dS);
    return dS;
  }

  function solve(stage: ImplicitStage, pot: PotState, guess: number, law: LevelLaw | undefined): StageResult {
    const evaluateAt = (S: number): Point => {
      if (law) pot.dw = law.levelAt(S);
      evaluate(pot, stage.moment);
      return measure(stage, S, law && release.Q + law.lossAt(pot.dw, stage.moment));
    };

    /** Goes along the Newton step, less far as long as that does not lessen the sum. */
    function search({ S, sum }: Point, dS: number): Point {
      for (let share = 1, tries = 1; ; share *= 0.4, tries++) {
        loops.moveCells(share);
        const to = evaluateAt(S + share * dS);
        if (to.sum < sum || to.isClose || tries === MOST_TRIES) return to;
      }
    }

    let at = evaluateAt(guess);
    let iterations = 0;
    let earlier = Number.POSITIVE_INFINITY;
    while (!at.isClose && iterations < MOST_ITERATIONS && Number.isFinite(at.sum)) {
      if (iterations % PATIENCE === 0) {
        if (at.sum > STANDSTILL * earlier) break;
        earlier = at.sum;
      }
      const dS = newtonStep(stage, at, law, iterations >= FEW_ITERATIONS);
      if (dS === undefined) break;
      const before = at.sum;
      at = search(at, dS);
      if (!(at.sum <= FAST * before)) factored = undefined;
      iterations++;
    }
    const { isClose: isSolved, S, outflow, sum: misfit } = at;
    return { isSolved, iterations, release: S, outflow, misfit, worstCell: isSolved ? 0 : largest(cells.residual) };
  }

  return { solve };
}

function largest(values: Float64Array): number {
  const broken = values.findIndex(Number.isNaN);
  return broken < 0 ? maxIndex(values, Math.abs) : broken;
}
