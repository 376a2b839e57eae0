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
  const atV = ofCells(Cell.V);
  const atTheta = ofCells(Cell.theta);
  const atKnown = ofCells(Cell.known);
  const atInflow = ofCells(Cell.inflow);
  const atResidual = ofCells(Cell.residual);
  const atUCorner = ofCells(Cell.uCorner);
  const atThetaR = ofCells(Cell.thetaR);
  let sum: f64 = 0;
  let isEven = true;
  for (let i = 0; i < n; i++) {
    const V = number(atV, i);
    const theta = number(atTheta, i);
    const R = V * (theta - number(atKnown, i)) - weight * number(atInflow, i);
    set(atResidual, i, R);
    sum += abs(R);
    if (abs(R) > LARGEST_MISFIT * V) isEven = false;
    else if (number(atUCorner, i) > -Infinity)
      if (R > LARGEST_OVERDRAFT * (theta - number(atThetaR, i)) * V) isEven = false;
  }
  return isEven ? sum : -sum;
}

/** The change of the cells, from where they are now, that takes the residuals away, with the factors at hand. */
export function newtonStep(): void {
  memory.copy(ofCells(Cell.uBefore), ofCells(Cell.u), <usize>n << 3);
  const atStep = ofCells(Cell.step);
  const atResidual = ofCells(Cell.residual);
  for (let i = 0; i < n; i++) set(atStep, i, -number(atResidual, i));
  solve(atStep);
}

/** The change of the cells with the pot's release, with the factors at hand. */
export function levelColumn(slope: f64): void {
  const atColumn = ofCells(Cell.column);
  const atDInflowDdw = ofCells(Cell.dInflowDdw);
  for (let i = 0; i < n; i++) set(atColumn, i, -slope * number(atDInflowDdw, i));
  solve(atColumn);
}

/** How the release grows with a change of the cells. */
export function releaseAlong(change: usize): f64 {
  const atDReleaseDu = ofCells(Cell.dReleaseDu);
  let sum: f64 = 0;
  for (let i = 0; i < n; i++) sum += number(atDReleaseDu, i) * number(change, i);
  return sum;
}

export function takeColumn(dS: f64): void {
  const atStep = ofCells(Cell.step);
  const atColumn = ofCells(Cell.column);
  for (let i = 0; i < n; i++)
    set(atStep, i, number(atStep, i) - dS * number(atColumn, i));
}

/**
 * Goes a share of the way. No cell goes more than half-way to its residual water content (or to the water it has on record,
 * where carried-over residuals put that lower), nor through saturation or past the driest soil that roots still drink
 * from, where the slopes change at once.
 */
export function moveCells(share: f64): void {
  const atUBefore = ofCells(Cell.uBefore);
  const atThetaR = ofCells(Cell.thetaR);
  const atKnown = ofCells(Cell.known);
  const atUCorner = ofCells(Cell.uCorner);
  const atUSaturated = ofCells(Cell.uSaturated);
  const atU = ofCells(Cell.u);
  const atStep = ofCells(Cell.step);
  for (let i = 0; i < n; i++) {
    const before = number(atUBefore, i);
    const driest = min(number(atThetaR, i), number(atKnown, i));
    const corner = number(atUCorner, i);
    const saturated = number(atUSaturated, i);
    let floor = before < driest ? driest : driest + (before - driest) / 2;
    let ceiling = before < saturated ? saturated : Infinity;
    if (corner > -Infinity) {
      if (before > corner) floor = max(driest, corner);
      else if (before < corner) ceiling = corner;
    }
    set(atU, i, min(max(before + share * number(atStep, i), floor), ceiling));
  }
}

/** Guesses u from the start of the step, along a rate; only while unsaturated. */
export function guess(rate: usize, dt: f64): void {
  const atUStart = ofCells(Cell.uStart);
  const atThetaR = ofCells(Cell.thetaR);
  const atThetaS = ofCells(Cell.thetaS);
  const atU = ofCells(Cell.u);
  for (let i = 0; i < n; i++) {
    const from = number(atUStart, i);
    const u = from + dt * number(rate, i);
    const isInside = u > number(atThetaR, i) && u < number(atThetaS, i);
    set(atU, i, isInside ? u : from);
  }
}

/** The first stage's flow goes on for `rest` days; what the second stage starts from. */
export function endFirstStage(weight: f64, rest: f64): void {
  const atInflow = ofCells(Cell.inflow);
  const atKnown = ofCells(Cell.known);
  const atThetaStart = ofCells(Cell.thetaStart);
  const atV = ofCells(Cell.V);
  const atStageRate = ofCells(Cell.stageRate);
  const atU = ofCells(Cell.u);
  const atUStart = ofCells(Cell.uStart);
  const atFirstInflow = ofCells(Cell.firstInflow);
  for (let i = 0; i < n; i++) {
    const inflow = number(atInflow, i);
    set(atKnown, i, number(atThetaStart, i) + (rest * inflow) / number(atV, i));
    set(atStageRate, i, (number(atU, i) - number(atUStart, i)) / weight);
    set(atFirstInflow, i, inflow);
  }
}

/** Ends a step of dt; the sum of the flows' changes from the first to the second stage. */
export function endSecondStage(weight: f64, dt: f64): f64 {
  const atInflow = ofCells(Cell.inflow);
  const atThetaNext = ofCells(Cell.thetaNext);
  const atKnown = ofCells(Cell.known);
  const atV = ofCells(Cell.V);
  const atRate = ofCells(Cell.rate);
  const atU = ofCells(Cell.u);
  const atUStart = ofCells(Cell.uStart);
  const atFirstInflow = ofCells(Cell.firstInflow);
  let change: f64 = 0;
  for (let i = 0; i < n; i++) {
    const inflow = number(atInflow, i);
    set(atThetaNext, i, number(atKnown, i) + (weight * inflow) / number(atV, i));
    set(atRate, i, (number(atU, i) - number(atUStart, i)) / dt);
    change += abs(inflow - number(atFirstInflow, i));
  }
  return change;
}
