/** Soil functions read from the tables that `soilTable.ts` packs, and the flow through half a cell. */
import { Cell, number, ofCells } from "./memory";

/** Numbers at the head of a table, in the order in which `soilTable.ts` packs them. */
const enum Head {
  thetaR,
  thetaS,
  thetaStar,
  hStar,
  cStar,
  least,
  wetEnd,
  Ks,
  KSlope,
  thetaSlope,
  phi0,
  dry,
  suction = 15,
}

/** Of each run of stretches: how far a number's bits are shifted, its first and last place, where in the table it begins. */
const enum Run {
  shift,
  first,
  last,
  start,
}

/** A stretch holds its begin and the four coefficients of three functions. */
const STRETCH: usize = 13 << 3;
const FIRST: usize = 1 << 3;
const SECOND: usize = 5 << 3;
const THIRD: usize = 9 << 3;

/**
 * Water that saturated ground takes up as its grains yield, per cm of head: 1e-3 per m is common for loose sand and stiff
 * clay (Domenico & Mifflin 1965, Water Resources Research 1:563-576, from memory). It is next to nothing, but with none at
 * all what is too much in a full cell would need the more head to leave it the shorter the step is.
 */
export const STORAGE: f64 = 1e-5;
/** Up to here, cm, a cell counts as not yet full: Newton's method stops at head 0, and would else go back and forth. */
const AT_FULL: f64 = 1e-9;

// @ts-ignore: decorator
@inline
function stretch(base: usize, shift: u64, first: i64, last: i64, x: f64): usize {
  const k = <i64>(reinterpret<u64>(x) >> shift) - first;
  return base + <usize>max(min(k, last), 0) * STRETCH;
}

// @ts-ignore: decorator
@inline
function value(at: usize, d: f64): f64 {
  return load<f64>(at) + d * (load<f64>(at, 8) + d * (load<f64>(at, 16) + d * load<f64>(at, 24)));
}

// @ts-ignore: decorator
@inline
function slope(at: usize, d: f64): f64 {
  return load<f64>(at, 8) + d * (2 * load<f64>(at, 16) + 3 * d * load<f64>(at, 24));
}

/** Fills the state of cells from their u; those whose u is as before are left alone. */
export function evaluateCells(table: usize, from: i32, to: i32): void {
  const atU = ofCells(Cell.u);
  const atUFilled = ofCells(Cell.uFilled);
  const atTheta = ofCells(Cell.theta);
  const atDTheta = ofCells(Cell.dTheta);
  const atPhi = ofCells(Cell.phi);
  const atDPhi = ofCells(Cell.dPhi);
  const atH = ofCells(Cell.h);
  const atDH = ofCells(Cell.dH);
  const atK = ofCells(Cell.K);
  const atDK = ofCells(Cell.dK);
  const thetaR = number(table, Head.thetaR);
  const thetaStar = number(table, Head.thetaStar);
  const hStar = number(table, Head.hStar);
  const least = number(table, Head.least);
  const wetEnd = number(table, Head.wetEnd);
  const inverseC = 1 / number(table, Head.cStar);
  const Ks = number(table, Head.Ks);
  const KSlope = number(table, Head.KSlope);
  const dryShift = <u64>number(table, Head.dry + Run.shift);
  const dryFirst = <i64>number(table, Head.dry + Run.first);
  const dryLast = <i64>number(table, Head.dry + Run.last);
  const dry = table + (<usize>number(table, Head.dry + Run.start) << 3);
  const wetShift = <u64>number(table, Head.suction + Run.shift);
  const wetFirst = <i64>number(table, Head.suction + Run.first);
  const wetLast = <i64>number(table, Head.suction + Run.last);
  const wet = table + (<usize>number(table, Head.suction + Run.start) << 3);
  for (let i = from; i < to; i++) {
    const o = <usize>i << 3;
    const u = load<f64>(atU + o);
    if (u == load<f64>(atUFilled + o)) continue;
    store<f64>(atUFilled + o, u);
    if (u < thetaStar) {
      const excess = max(u - thetaR, least);
      const p = stretch(dry, dryShift, dryFirst, dryLast, excess);
      const d = excess - load<f64>(p);
      const dPhi = slope(p + FIRST, d);
      const dH = slope(p + THIRD, d);
      store<f64>(atTheta + o, u);
      store<f64>(atDTheta + o, 1);
      store<f64>(atPhi + o, value(p + FIRST, d));
      store<f64>(atDPhi + o, dPhi);
      store<f64>(atH + o, value(p + THIRD, d));
      store<f64>(atDH + o, dH);
      store<f64>(atK + o, dPhi / dH);
      store<f64>(atDK + o, slope(p + SECOND, d));
      continue;
    }
    const h = hStar + (u - thetaStar) * inverseC;
    store<f64>(atH + o, h);
    store<f64>(atDH + o, inverseC);
    if (h < wetEnd) {
      const p = stretch(wet, wetShift, wetFirst, wetLast, -h);
      const d = -h - load<f64>(p);
      const K = -slope(p + FIRST, d);
      store<f64>(atTheta + o, value(p + THIRD, d));
      store<f64>(atDTheta + o, -slope(p + THIRD, d) * inverseC);
      store<f64>(atPhi + o, value(p + FIRST, d));
      store<f64>(atDPhi + o, K * inverseC);
      store<f64>(atK + o, K);
      store<f64>(atDK + o, -slope(p + SECOND, d) * inverseC);
      continue;
    }
    const below = min(h, 0.0);
    const thetaSlope = number(table, Head.thetaSlope);
    const K = Ks + KSlope * below;
    store<f64>(atTheta + o, number(table, Head.thetaS) + thetaSlope * below + STORAGE * max(h, 0.0));
    store<f64>(atDTheta + o, (h < AT_FULL ? thetaSlope : STORAGE) * inverseC);
    store<f64>(atPhi + o, number(table, Head.phi0) + Ks * h + (KSlope * below * below) / 2);
    store<f64>(atDPhi + o, K * inverseC);
    store<f64>(atK + o, K);
    store<f64>(atDK + o, h < AT_FULL ? KSlope * inverseC : 0);
  }
}

/** φ, K and dK/dh of a soil at a head; set by `readAtHead`. */
export let phiAtHead: f64 = 0;
export let KAtHead: f64 = 0;
let dKAtHead: f64 = 0;

export function readAtHead(table: usize, h: f64): void {
  if (h < number(table, Head.wetEnd)) {
    const shift = <u64>number(table, Head.suction + Run.shift);
    const first = <i64>number(table, Head.suction + Run.first);
    const last = <i64>number(table, Head.suction + Run.last);
    const p = stretch(table + (<usize>number(table, Head.suction + Run.start) << 3), shift, first, last, -h);
    const d = -h - load<f64>(p);
    phiAtHead = value(p + FIRST, d);
    KAtHead = -slope(p + FIRST, d);
    dKAtHead = -slope(p + SECOND, d);
    return;
  }
  const below = min(h, 0.0);
  const slopeOfK = number(table, Head.KSlope);
  KAtHead = number(table, Head.Ks) + slopeOfK * below;
  dKAtHead = h < 0 ? slopeOfK : 0;
  phiAtHead = number(table, Head.phi0) + number(table, Head.Ks) * h + (slopeOfK * below * below) / 2;
}

/** Of a search for the head at a face. */
export const MOST_ITERATIONS = 60;
/** Newton's step is taken where it is so much shorter than the last one; else the bounds are halved, lest it swings for ever. */
export const SHORTER: f64 = 0.5;

/** Below this difference of head, cm, the mean conductivity is the arithmetic one. */
export const NEARLY_EQUAL_HEADS: f64 = 1e-4;

/** Flow from a face to the centre of its cell, over T, and its derivatives by the head of face and cell. */
export let halfFlow: f64 = 0;
export let halfByFace: f64 = 0;
export let halfByCell: f64 = 0;

/**
 * φ(hf) − φ(h) + drop K̄(hf, h), with `drop` the depth of the centre less that of the face. Both ends are of the cell's own
 * soil and read by suction: where they are nearly at one head, the error of a second reading would drown their difference.
 * The slopes leave out that K̄ changes with a head where they would turn round: see `faces.as`.
 */
export function halfCell(table: usize, hf: f64, h: f64, phi: f64, K: f64, dK: f64, drop: f64): void {
  readAtHead(table, hf);
  const rise = phiAtHead - phi;
  halfFlow = rise;
  halfByFace = KAtHead;
  halfByCell = -K;
  if (drop == 0) return;
  const difference = hf - h;
  if (abs(difference) < NEARLY_EQUAL_HEADS) {
    halfFlow += (drop * (KAtHead + K)) / 2;
    halfByFace += (drop * dK) / 2;
    halfByCell += (drop * dK) / 2;
    return;
  }
  const mean = rise / difference;
  const share = drop / difference;
  halfFlow += drop * mean;
  const byFace = halfByFace + share * (KAtHead - mean);
  const byCell = halfByCell + share * (mean - K);
  if (byFace > 0) halfByFace = byFace;
  if (byCell < 0) halfByCell = byCell;
  const isFaceUpper = drop > 0;
  const pull = pullOfUpper(share);
  const bound = boundByWeight(drop, isFaceUpper ? KAtHead : K, isFaceUpper ? phiAtHead : phi, pull);
  if (!isBeyond(halfFlow, bound, drop, share)) return;
  halfFlow = bound;
  halfByFace = isFaceUpper ? boundByWeight(drop, dKAtHead, KAtHead, pull) : 0;
  halfByCell = isFaceUpper ? 0 : boundByWeight(drop, dK, K, pull);
}

/**
 * A bound of the flow between two places of one soil, over T. In steady flow the upper place passes down at least its own K
 * where it is the wetter, and at most its own K where it is the drier. The least flow is held to |drop| K − 2 φ, which is
 * above 0 only where cells are higher than water rises in them, 2 φ/K: in lower cells K̄ carries the front better. Without
 * bounds a high cell would draw the more water from the one above it the wetter it is. Several states of the cells would
 * then solve one step, or none.
 */
// @ts-ignore: decorator
@inline
export function boundByWeight(drop: f64, K: f64, phi: f64, pull: f64): f64 {
  return drop * K - (drop > 0 ? pull : -pull) * phi;
}

/** `share` is above 0 where the upper place is the wetter. */
// @ts-ignore: decorator
@inline
export function pullOfUpper(share: f64): f64 {
  return share > 0 ? 2 : 0;
}

// @ts-ignore: decorator
@inline
export function isBeyond(flow: f64, bound: f64, drop: f64, share: f64): bool {
  return (share > 0) == (drop > 0) ? flow < bound : flow > bound;
}

/** dK/dh in a cell. */
// @ts-ignore: decorator
@inline
export function slopeOfK(cell: i32): f64 {
  return number(ofCells(Cell.dK), cell) / number(ofCells(Cell.dH), cell);
}
