/** Newton's method over the cells, and the loops of a time step: see `stage.ts` and `timeStep.ts`. */
import { solve } from "./elimination";
import { Cell, n, number, ofCells, set } from "./memory";
import { STORAGE } from "./soil";

/**
 * How far a cell's water on record, which is what its flows bring and take, may lie from its state, of its volume: the sum of
 * the residuals alone would let one small cell stand empty or overfull, from where the next stages hardly lead back.
 */
const LARGEST_MISFIT: f64 = 0.03;
/** How far below it, as a share of what the cell holds above its residual content; and a hair that always may be. */
const LARGEST_OVERDRAFT: f64 = 0.5;
const HAIR: f64 = 1e-6;

/** What a cell takes up and passes on as its head rises by a centimetre, cm³; it may be overfull by as much. */
// @ts-ignore: decorator
@inline
function pressed(i: i32, weight: f64): f64 {
  const passesOn = -number(ofCells(Cell.diagonal), i) / number(ofCells(Cell.dH), i);
  return STORAGE * number(ofCells(Cell.V), i) + weight * passesOn;
}

/** Fills the residuals; the sum of their absolute values, less than 0 where one cell's alone is too large. */
export function measure(weight: f64): f64 {
  const atV = ofCells(Cell.V);
  const atTheta = ofCells(Cell.theta);
  const atKnown = ofCells(Cell.known);
  const atInflow = ofCells(Cell.inflow);
  const atResidual = ofCells(Cell.residual);
  const atThetaR = ofCells(Cell.thetaR);
  const atThetaS = ofCells(Cell.thetaS);
  let sum: f64 = 0;
  let isEven = true;
  for (let i = 0; i < n; i++) {
    const V = number(atV, i);
    const theta = number(atTheta, i);
    const R = V * (theta - number(atKnown, i)) - weight * number(atInflow, i);
    set(atResidual, i, R);
    sum += abs(R);
    const toSpare = LARGEST_OVERDRAFT * max(theta - number(atThetaR, i), 0.0) + HAIR;
    if (R > V * min(toSpare, LARGEST_MISFIT) || -R > V * LARGEST_MISFIT) isEven = false;
    else if (-R > V * max(number(atThetaS, i) - theta, HAIR) + pressed(i, weight)) isEven = false;
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
 * where carried-over residuals put that lower), nor up through saturation or past the driest soil that roots still drink
 * from, where the slopes change at once; nor, without roots, down through saturation.
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
    if (before > saturated) floor = saturated;
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
  const atInflowNext = ofCells(Cell.inflowNext);
  for (let i = 0; i < n; i++) {
    const inflow = number(atInflow, i);
    set(atKnown, i, number(atThetaStart, i) + (rest * inflow) / number(atV, i));
    set(atStageRate, i, (number(atU, i) - number(atUStart, i)) / weight);
    set(atInflowNext, i, inflow);
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
  const atInflowNext = ofCells(Cell.inflowNext);
  let change: f64 = 0;
  for (let i = 0; i < n; i++) {
    const inflow = number(atInflow, i);
    set(atThetaNext, i, number(atKnown, i) + (weight * inflow) / number(atV, i));
    set(atRate, i, (number(atU, i) - number(atUStart, i)) / dt);
    change += abs(inflow - number(atInflowNext, i));
    set(atInflowNext, i, inflow);
  }
  return change;
}

/** How far below its residual water content a cell may stand before the second stage. */
const OVERDRAWN: f64 = 1e-5;

/** Whether the first stage's flow, gone on for longer, has left some cell with more or less than it can hold. */
export function overshoots(weight: f64): bool {
  const atKnown = ofCells(Cell.known);
  const atThetaStart = ofCells(Cell.thetaStart);
  const atThetaR = ofCells(Cell.thetaR);
  const atThetaS = ofCells(Cell.thetaS);
  const atV = ofCells(Cell.V);
  for (let i = 0; i < n; i++) {
    const known = number(atKnown, i);
    const start = number(atThetaStart, i);
    if (known < min(number(atThetaR, i), start) - OVERDRAWN) return true;
    const excess = known - max(number(atThetaS, i), start);
    if (excess > 0 && excess * number(atV, i) > pressed(i, weight)) return true;
  }
  return false;
}

/** Ends a step with its first stage alone; the sum of the flows' changes since the last step. */
export function endWithFirst(weight: f64): f64 {
  const atInflowNext = ofCells(Cell.inflowNext);
  const atInflowStart = ofCells(Cell.inflowStart);
  const atThetaNext = ofCells(Cell.thetaNext);
  const atThetaStart = ofCells(Cell.thetaStart);
  const atV = ofCells(Cell.V);
  const atRate = ofCells(Cell.rate);
  const atStageRate = ofCells(Cell.stageRate);
  const atU = ofCells(Cell.u);
  const atUStart = ofCells(Cell.uStart);
  let change: f64 = 0;
  for (let i = 0; i < n; i++) {
    const inflow = number(atInflowNext, i);
    const rate = number(atStageRate, i);
    set(atThetaNext, i, number(atThetaStart, i) + (weight * inflow) / number(atV, i));
    set(atU, i, number(atUStart, i) + weight * rate);
    set(atRate, i, rate);
    change += abs(inflow - number(atInflowStart, i));
  }
  return change;
}
