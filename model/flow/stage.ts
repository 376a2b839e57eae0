import type { Assembly } from "./assembly.ts";
import type { Moment, PotState } from "./boundary.ts";
import { type MeshMatrix, meshMatrix, type SparseLU } from "./sparseLU.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * One implicit stage, V (θ(u) − known) = weight · inflow(u, dw), solved for all cells at once and, while the pot's level
 * falls, for the water S that has left it since it was last filled: S − knownRelease = weight · (Q + what the open
 * pot loses to the air).
 */
export interface ImplicitStage {
  /** γ dt, days. */
  weight: number;
  /** Water content that the stage starts from, by cell. */
  known: Float64Array;
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
  /** Cell with the largest residual, or with one that is not a number. */
  worstCell: number;
}

export interface StageSolver {
  /** Starts from `assembly.soil.u`, leaves the solution there and the flows that belong to it in the assembly. */
  solve(stage: ImplicitStage, pot: PotState, guess: number, law: LevelLaw | undefined): StageResult;
}

/** Where Newton's method stands: the release, the sum of |residuals|, and whether that is good enough. */
interface Point {
  S: number;
  outflow: number;
  sum: number;
  isClose: boolean;
}

/** Where clay saturates, each finds a few more cells that do: begun again with a shorter step, it would take many times as long. */
const MOST_ITERATIONS = 60;
const MOST_TRIES = 5;
/**
 * Largest residual accepted in a cell, of its volume: the sum alone would let one small cell stand below its residual
 * water content, from where the next stages hardly lead back.
 */
const LARGEST_MISFIT = 0.03;
/**
 * Where roots dry the soil, the most that a cell may be left with less than its state says, as a share of what it holds
 * above its residual content.
 */
const LARGEST_OVERDRAFT = 0.5;
/** Share of the residuals that a step may leave for its factors to serve again (found by timing live and standard runs). */
const FAST = 0.2;

/**
 * Newton's method with the level as one more row and column about the cells' matrix. The factors of a matrix serve again
 * in later stages of the same weight, as long as they lead on fast. The step is shortened when the sum of |residuals|
 * does not fall. No cell goes more than half-way to its residual water content in one step (or to the water it has on record,
 * where carried-over residuals put that lower), nor through saturation or past the driest soil that roots still drink from,
 * where the slopes change at once.
 */
export function stageSolver(system: Assembly, lu: SparseLU): StageSolver {
  const { mesh, soil, inflow, jacobian, release } = system;
  const n = mesh.cellCount;
  const { V } = mesh;
  const { thetaR, uSaturated } = system.ground;
  const { uCorner } = system;
  const hasRoots = uCorner.some(Number.isFinite);
  const matrix = meshMatrix(mesh);
  const residual = new Float64Array(n);
  const step = new Float64Array(n);
  /** Change of the cells with the level, for the factors at hand. */
  const column = new Float64Array(n);
  const uBefore = new Float64Array(n);
  /** The stages that the factors at hand are good for. */
  let factored: { weight: number; law: LevelLaw | undefined } | undefined;

  function overdraws(i: number, R: number): boolean {
    return uCorner[i]! > Number.NEGATIVE_INFINITY && R > LARGEST_OVERDRAFT * (soil.theta[i]! - thetaR[i]!) * V[i]!;
  }

  /** Fills `residual`; sums the absolute values, the level's included. */
  function measure(stage: ImplicitStage, S: number, outflow: number | undefined): Point {
    const { weight, known, knownRelease, tolerance } = stage;
    let sum = outflow === undefined ? 0 : Math.abs(S - knownRelease - weight * outflow);
    let isEven = true;
    for (let i = 0; i < n; i++) {
      const R = V[i]! * (soil.theta[i]! - known[i]!) - weight * inflow[i]!;
      residual[i] = R;
      sum += Math.abs(R);
      if (Math.abs(R) > LARGEST_MISFIT * V[i]! || (hasRoots && overdraws(i, R))) isEven = false;
    }
    return { S, outflow: outflow ?? 0, sum, isClose: sum <= tolerance && isEven };
  }

  function factor({ weight }: ImplicitStage, S: number, law: LevelLaw | undefined): boolean {
    if (factored?.weight === weight && factored.law === law) return true;
    factored = undefined;
    fillMatrix(matrix, jacobian, V, soil.dTheta, weight);
    if (!lu.factor(matrix)) return false;
    factored = { weight, law };
    if (!law) return true;
    const slope = law.slopeAt(S) * weight;
    for (let i = 0; i < n; i++) column[i] = -slope * system.dInflowDdw[i]!;
    lu.solve(column);
    return true;
  }

  function newtonStep(stage: ImplicitStage, { S, outflow }: Point, law: LevelLaw | undefined): number | undefined {
    if (!factor(stage, S, law)) return undefined;
    for (let i = 0; i < n; i++) step[i] = -residual[i]!;
    lu.solve(step);
    if (!law) return 0;
    const slope = law.slopeAt(S) * stage.weight;
    const misfit = S - stage.knownRelease - stage.weight * outflow;
    const along = -stage.weight * dot(release.dQdu, step);
    const across = -stage.weight * dot(release.dQdu, column);
    const dS = (-misfit - along) / (1 - slope * release.dQddw - across);
    for (let i = 0; i < n; i++) step[i]! -= column[i]! * dS;
    return dS;
  }

  function moveCells(share: number, known: Float64Array): void {
    for (let i = 0; i < n; i++) {
      const before = uBefore[i]!;
      const driest = Math.min(thetaR[i]!, known[i]!);
      const corner = uCorner[i]!;
      let floor = before < driest ? driest : driest + (before - driest) / 2;
      let ceiling = before < uSaturated[i]! ? uSaturated[i]! : Number.POSITIVE_INFINITY;
      if (hasRoots) {
        if (before > corner) floor = Math.max(driest, corner);
        else if (before < corner) ceiling = corner;
      }
      soil.u[i] = Math.min(Math.max(before + share * step[i]!, floor), ceiling);
    }
  }

  function solve(stage: ImplicitStage, pot: PotState, guess: number, law: LevelLaw | undefined): StageResult {
    const evaluateAt = (S: number): Point => {
      if (law) pot.dw = law.levelAt(S);
      system.evaluate(pot, stage.moment);
      return measure(stage, S, law && release.Q + law.lossAt(pot.dw, stage.moment));
    };

    /** Goes along the Newton step, less far as long as that does not lessen the sum. */
    function search({ S, sum }: Point, dS: number): Point {
      uBefore.set(soil.u);
      for (let share = 1, tries = 1; ; share *= 0.4, tries++) {
        moveCells(share, stage.known);
        const to = evaluateAt(S + share * dS);
        if (to.sum < sum || to.isClose || tries === MOST_TRIES) return to;
      }
    }

    let at = evaluateAt(guess);
    let iterations = 0;
    while (!at.isClose && iterations < MOST_ITERATIONS && Number.isFinite(at.sum)) {
      const dS = newtonStep(stage, at, law);
      if (dS === undefined) break;
      const before = at.sum;
      at = search(at, dS);
      if (!(at.sum <= FAST * before)) factored = undefined;
      iterations++;
    }
    const { isClose: isSolved, S, outflow, sum: misfit } = at;
    return { isSolved, iterations, release: S, outflow, misfit, worstCell: largest(residual) };
  }

  return { solve };
}

function fillMatrix(
  matrix: MeshMatrix,
  jacobian: MeshMatrix,
  V: Float64Array,
  dTheta: Float64Array,
  weight: number,
): void {
  for (let i = 0; i < V.length; i++) matrix.diagonal[i] = V[i]! * dTheta[i]! - weight * jacobian.diagonal[i]!;
  for (let f = 0; f < matrix.ab.length; f++) {
    matrix.ab[f] = -weight * jacobian.ab[f]!;
    matrix.ba[f] = -weight * jacobian.ba[f]!;
  }
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!;
  return sum;
}

function largest(values: Float64Array): number {
  let best = 0;
  for (const [i, value] of values.entries()) {
    if (Number.isNaN(value)) return i;
    if (Math.abs(value) > Math.abs(values[best]!)) best = i;
  }
  return best;
}
