/** Newton's method over the cells, and the loops of a time step: see `stage.ts` and `timeStep.ts`. */
import { solve } from "./elimination";
import { Cell, n, number, ofCells, set } from "./memory";

/**
 * Largest residual accepted in a cell, of its volume: the sum alone would let one small cell stand below its residual
 * water content, from where the next stages hardly lead back.
 */
const LARGEST_MISFIT: f64 = 0.03;
/**
 * Where roots dry the soil, the most that a cell may be left with less than its state says, as a share of what it holds
 * above its residual content.
 */
const LARGEST_OVERDRAFT: f64 = 0.5;

/** Fills the residuals; the sum of their absolute values, less than 0 where one cell's alone is too large. */
export function measure(weight: f64): f64 {
  let sum: f64 = 0;
  let isEven = true;
  for (let i = 0; i < n; i++) {
    const V = number(ofCells(Cell.V), i);
    const theta = number(ofCells(Cell.theta), i);
    const R = V * (theta - number(ofCells(Cell.known), i)) - weight * number(ofCells(Cell.inflow), i);
    set(ofCells(Cell.residual), i, R);
    sum += abs(R);
    if (abs(R) > LARGEST_MISFIT * V) isEven = false;
    else if (number(ofCells(Cell.uCorner), i) > -Infinity)
      if (R > LARGEST_OVERDRAFT * (theta - number(ofCells(Cell.thetaR), i)) * V) isEven = false;
  }
  return isEven ? sum : -sum;
}

/** The change of the cells that takes the residuals away, with the factors at hand. */
export function newtonStep(): void {
  for (let i = 0; i < n; i++) set(ofCells(Cell.step), i, -number(ofCells(Cell.residual), i));
  solve(ofCells(Cell.step));
}

/** The change of the cells with the pot's release, with the factors at hand. */
export function levelColumn(slope: f64): void {
  for (let i = 0; i < n; i++) set(ofCells(Cell.column), i, -slope * number(ofCells(Cell.dInflowDdw), i));
  solve(ofCells(Cell.column));
}

/** How the release grows with a change of the cells. */
export function releaseAlong(change: usize): f64 {
  let sum: f64 = 0;
  for (let i = 0; i < n; i++) sum += number(ofCells(Cell.dReleaseDu), i) * number(change, i);
  return sum;
}

export function takeColumn(dS: f64): void {
  for (let i = 0; i < n; i++)
    set(ofCells(Cell.step), i, number(ofCells(Cell.step), i) - dS * number(ofCells(Cell.column), i));
}

/**
 * Goes a share of the way. No cell goes more than half-way to its residual water content (or to the water it has on record,
 * where carried-over residuals put that lower), nor through saturation or past the driest soil that roots still drink
 * from, where the slopes change at once.
 */
export function moveCells(share: f64): void {
  for (let i = 0; i < n; i++) {
    const before = number(ofCells(Cell.uBefore), i);
    const driest = min(number(ofCells(Cell.thetaR), i), number(ofCells(Cell.known), i));
    const corner = number(ofCells(Cell.uCorner), i);
    const saturated = number(ofCells(Cell.uSaturated), i);
    let floor = before < driest ? driest : driest + (before - driest) / 2;
    let ceiling = before < saturated ? saturated : Infinity;
    if (corner > -Infinity) {
      if (before > corner) floor = max(driest, corner);
      else if (before < corner) ceiling = corner;
    }
    set(ofCells(Cell.u), i, min(max(before + share * number(ofCells(Cell.step), i), floor), ceiling));
  }
}

/** Guesses u from the start of the step, along a rate; only while unsaturated. */
export function guess(rate: usize, dt: f64): void {
  for (let i = 0; i < n; i++) {
    const from = number(ofCells(Cell.uStart), i);
    const u = from + dt * number(rate, i);
    const isInside = u > number(ofCells(Cell.thetaR), i) && u < number(ofCells(Cell.thetaS), i);
    set(ofCells(Cell.u), i, isInside ? u : from);
  }
}

/** The first stage's flow goes on for `rest` days; what the second stage starts from. */
export function endFirstStage(weight: f64, rest: f64): void {
  for (let i = 0; i < n; i++) {
    const inflow = number(ofCells(Cell.inflow), i);
    set(ofCells(Cell.known), i, number(ofCells(Cell.thetaStart), i) + (rest * inflow) / number(ofCells(Cell.V), i));
    set(ofCells(Cell.stageRate), i, (number(ofCells(Cell.u), i) - number(ofCells(Cell.uStart), i)) / weight);
    set(ofCells(Cell.firstInflow), i, inflow);
  }
}

/** Ends a step of dt; the sum of the flows' changes from the first to the second stage. */
export function endSecondStage(weight: f64, dt: f64): f64 {
  let change: f64 = 0;
  for (let i = 0; i < n; i++) {
    const inflow = number(ofCells(Cell.inflow), i);
    set(ofCells(Cell.thetaNext), i, number(ofCells(Cell.known), i) + (weight * inflow) / number(ofCells(Cell.V), i));
    set(ofCells(Cell.rate), i, (number(ofCells(Cell.u), i) - number(ofCells(Cell.uStart), i)) / dt);
    change += abs(inflow - number(ofCells(Cell.firstInflow), i));
  }
  return change;
}
