/**
 * Water across the edge of the soil, by face: each function fills flows into the soil, their slopes by the cell's u and, at
 * the wall, by the level. `flows` holds these three lists and then the sums of the first and the third.
 */
import { add, Cell, number, ofCells, set, tables, whole } from "./memory";
import {
  halfByCell,
  halfByFace,
  halfCell,
  halfFlow,
  KAtHead,
  MOST_ITERATIONS,
  phiAtHead,
  readAtHead,
  SHORTER,
  slopeOfK,
} from "./soil";

/** Lists of the wall's faces: see `wall.ts`. */
const enum Wall {
  area,
  perArea,
  upper,
  lower,
  drop,
  hFace,
}

/** Lists of faces at given heads: see `surface.ts`. */
const enum Held {
  T,
  drop,
  head,
}

/** Lists of rooted cells: see `roots.ts`. */
const enum Roots {
  share,
  alpha,
  slope,
}

/** q, and its slopes by the cell's u and by p; set by `throughWall`. */
let q: f64 = 0;
let qByU: f64 = 0;
let qByP: f64 = 0;

/**
 * Solves conductance (p − hf) = perArea [φ(hf) − φ(h) + drop K̄(hf, h)] for hf, by Newton's method between bounds, as the
 * difference of the two sides falls with hf; p is the head at the face if the wall passed nothing. The last step found is
 * so small that the next one would be rounding. Where none is found, nothing is a number: no stage then counts as
 * solved, and the run fails at this cell.
 */
function throughWall(conductance: f64, perArea: f64, p: f64, drop: f64, cell: i32, guess: f64): f64 {
  const h = number(ofCells(Cell.h), cell);
  const table = <usize>whole(tables, cell);
  readAtHead(table, h);
  const phi = phiAtHead;
  const K = KAtHead;
  const dK = slopeOfK(cell);
  let dry = min(h, p) - abs(drop) - 1e-9;
  let wet = max(h, p) + abs(drop) + 1e-9;
  let hf = guess > dry && guess < wet ? guess : min(p, wet);
  let stride: f64 = Infinity;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    halfCell(table, hf, h, phi, K, dK, drop);
    const misfit = conductance * (p - hf) - perArea * halfFlow;
    const slope = -conductance - perArea * halfByFace;
    if (!isFinite(misfit)) break;
    if (misfit > 0) dry = hf;
    else wet = hf;
    const next = hf - misfit / slope;
    const to = next > dry && next < wet && abs(next - hf) < SHORTER * stride ? next : (dry + wet) / 2;
    stride = abs(to - hf);
    if (abs(to - hf) <= 1e-7 * (1 + abs(hf))) {
      q = conductance * (p - to);
      qByU = (-conductance * perArea * halfByCell * number(ofCells(Cell.dH), cell)) / slope;
      qByP = conductance * (1 + conductance / slope);
      return to;
    }
    hf = to;
  }
  q = qByU = qByP = NaN;
  return NaN;
}

/** The wall with the water level at the depth dw: see `wall.ts`. */
export function fillWall(count: i32, cells: usize, flows: usize, faces: usize, conductance: f64, dw: f64): void {
  const size = <usize>count << 3;
  for (let k = 0; k < count; k++) {
    const upper = number(faces + Wall.upper * size, k);
    const lower = number(faces + Wall.lower * size, k);
    const isFlat = upper == lower;
    set(flows, k, 0);
    set(flows + size, k, 0);
    set(flows + 2 * size, k, 0);
    if (dw >= lower && !isFlat) continue;
    const isCut = dw > upper && !isFlat;
    const depth = ((isCut ? dw : upper) + lower) / 2;
    const wetShare = isCut ? (lower - dw) / (lower - upper) : 1.0;
    const area = number(faces + Wall.area * size, k);
    const hFace = faces + Wall.hFace * size;
    const perArea = number(faces + Wall.perArea * size, k);
    const drop = number(faces + Wall.drop * size, k);
    set(hFace, k, throughWall(conductance, perArea, depth - dw, drop, whole(cells, k), number(hFace, k)));
    const dWetShare = isCut ? -1 / (lower - upper) : 0.0;
    set(flows, k, q * area * wetShare);
    set(flows + size, k, qByU * area * wetShare);
    set(flows + 2 * size, k, area * (qByP * (isCut ? -0.5 : -1.0) * wetShare + q * dWetShare));
  }
}

/** Faces at given heads: half a cell's flow, T [φ(hb) − φ(h) + drop K̄]. */
export function fillHeld(count: i32, cells: usize, flows: usize, faces: usize): void {
  const size = <usize>count << 3;
  for (let k = 0; k < count; k++) {
    const cell = whole(cells, k);
    const table = <usize>whole(tables, cell);
    const h = number(ofCells(Cell.h), cell);
    const T = number(faces + Held.T * size, k);
    const drop = number(faces + Held.drop * size, k);
    readAtHead(table, h);
    halfCell(table, number(faces + Held.head * size, k), h, phiAtHead, KAtHead, slopeOfK(cell), drop);
    set(flows, k, T * halfFlow);
    set(flows + size, k, T * halfByCell * number(ofCells(Cell.dH), cell));
  }
}

/** Takes a flux (cm/day over the areas) where it is less than the flow at hand, and nothing where that goes the other way. */
export function limitFlows(count: i32, flows: usize, areas: usize, flux: f64): void {
  for (let k = 0; k < count; k++) {
    const most = number(flows, k);
    const offered = flux * number(areas, k);
    if (most * flux > 0 && abs(most) < abs(offered)) continue;
    set(flows, k, most * flux > 0 ? offered : 0);
    set(flows, count + k, 0);
  }
}

/** Roots that would take `demand`, cm³/day: see `roots.ts`. */
export function fillRoots(
  count: i32,
  cells: usize,
  flows: usize,
  roots: usize,
  demand: f64,
  least: f64,
  h1: f64,
  h2: f64,
  h3: f64,
  h4: f64,
): void {
  const size = <usize>count << 3;
  const share = roots + Roots.share * size;
  const alpha = roots + Roots.alpha * size;
  const slope = roots + Roots.slope * size;
  let omega: f64 = 0;
  for (let k = 0; k < count; k++) {
    const h = number(ofCells(Cell.h), whole(cells, k));
    const isWet = h > h2;
    const isDry = h < h3;
    const isOut = h >= h1 || h <= h4;
    const byHead = isOut ? 0.0 : isWet ? -1 / (h1 - h2) : isDry ? 1 / (h3 - h4) : 0.0;
    const taken = isOut ? 0.0 : isWet ? (h1 - h) / (h1 - h2) : isDry ? (h - h4) / (h3 - h4) : 1.0;
    set(alpha, k, taken);
    set(slope, k, byHead);
    omega += taken * number(share, k);
  }
  const rate = demand / max(omega, least);
  for (let k = 0; k < count; k++) {
    const own = -rate * number(share, k);
    set(flows, k, own * number(alpha, k));
    set(flows + size, k, own * number(slope, k) * number(ofCells(Cell.dH), whole(cells, k)));
  }
}

/** Adds the flows of an edge to its cells; those of a pot to its release, too. */
export function addFlows(count: i32, cells: usize, flows: usize, isFromPot: bool): void {
  const size = <usize>count << 3;
  let all: f64 = 0;
  let byLevel: f64 = 0;
  for (let k = 0; k < count; k++) {
    const cell = whole(cells, k);
    const Q = number(flows, k);
    const byU = number(flows + size, k);
    all += Q;
    add(ofCells(Cell.inflow), cell, Q);
    add(ofCells(Cell.diagonal), cell, byU);
    if (!isFromPot) continue;
    const own = number(flows + 2 * size, k);
    byLevel += own;
    add(ofCells(Cell.dInflowDdw), cell, own);
    add(ofCells(Cell.dReleaseDu), cell, byU);
  }
  set(flows, 3 * count, all);
  set(flows, 3 * count + 1, byLevel);
}

/**
 * Takes from what is known to the cells, or gives back to them, what a flow would bring or take in a time beyond a limit of
 * the water content (by face); how much that is, cm³.
 */
export function giveBack(count: i32, cells: usize, flows: usize, limits: usize, time: f64): f64 {
  let all: f64 = 0;
  for (let k = 0; k < count; k++) {
    const cell = whole(cells, k);
    const V = number(ofCells(Cell.V), cell);
    const taken = (-time * number(flows, k)) / V;
    const start = number(ofCells(Cell.thetaStart), cell);
    const limit = number(limits, k);
    const lack = (taken > 0 ? min(limit, start) : max(limit, start)) - number(ofCells(Cell.known), cell);
    const back = taken > 0 ? max(min(lack, taken), 0) : min(max(lack, taken), 0);
    add(ofCells(Cell.known), cell, back);
    all += back * V;
  }
  return all;
}
