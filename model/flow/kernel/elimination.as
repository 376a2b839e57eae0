/**
 * The factors of a stage's matrix, V dθ/du − weight ∂inflow/∂u: see `elimination.ts`. The rows stand in the order of
 * elimination.
 */
import { Cell, Face, n, number, ofCells, ofFaces, set, whole } from "./memory";

/** Compressed rows below and above the diagonal: column[start[row] .. start[row + 1]), ascending. */
let lowerStart: usize = 0;
let lowerColumn: usize = 0;
let upperStart: usize = 0;
let upperColumn: usize = 0;
/** The matrix's entries off the diagonal by row: column, and face f for ab[f] or −1 − f for ba[f]. */
let entryStart: usize = 0;
let entryColumn: usize = 0;
let entryFace: usize = 0;
/** Cell of each row. */
let order: usize = 0;
let L: usize = 0;
let U: usize = 0;
let pivot: usize = 0;
let work: usize = 0;

export function placeFactors(
  atLowerStart: usize,
  atLowerColumn: usize,
  atUpperStart: usize,
  atUpperColumn: usize,
  atEntryStart: usize,
  atEntryColumn: usize,
  atEntryFace: usize,
  atOrder: usize,
  atL: usize,
  atU: usize,
  atPivot: usize,
  atWork: usize,
): void {
  lowerStart = atLowerStart;
  lowerColumn = atLowerColumn;
  upperStart = atUpperStart;
  upperColumn = atUpperColumn;
  entryStart = atEntryStart;
  entryColumn = atEntryColumn;
  entryFace = atEntryFace;
  order = atOrder;
  L = atL;
  U = atU;
  pivot = atPivot;
  work = atWork;
}

/** Puts a row of the matrix into the work row. */
function scatter(row: i32, weight: f64): void {
  const line = work;
  for (let k = whole(lowerStart, row), end = whole(lowerStart, row + 1); k < end; k++)
    set(line, whole(lowerColumn, k), 0);
  for (let k = whole(upperStart, row), end = whole(upperStart, row + 1); k < end; k++)
    set(line, whole(upperColumn, k), 0);
  const cell = whole(order, row);
  const stored = number(ofCells(Cell.V), cell) * number(ofCells(Cell.dTheta), cell);
  set(line, row, stored - weight * number(ofCells(Cell.diagonal), cell));
  const ab = ofFaces(Face.ab);
  const ba = ofFaces(Face.ba);
  for (let k = whole(entryStart, row), end = whole(entryStart, row + 1); k < end; k++) {
    const face = whole(entryFace, k);
    const column = whole(entryColumn, k);
    set(line, column, number(line, column) - weight * (face >= 0 ? number(ab, face) : number(ba, -1 - face)));
  }
}

/** Takes from the work row its multiples of the rows above, but for those below `drop`. */
function eliminate(row: i32, drop: f64): void {
  const line = work;
  const columns = upperColumn;
  const rows = upperStart;
  const factors = U;
  for (let k = whole(lowerStart, row), end = whole(lowerStart, row + 1); k < end; k++) {
    const above = whole(lowerColumn, k);
    const multiplier = number(line, above) * number(pivot, above);
    if (abs(multiplier) < drop) {
      set(L, k, 0);
      continue;
    }
    set(L, k, multiplier);
    for (let j = whole(rows, above), last = whole(rows, above + 1); j < last; j++) {
      const column = whole(columns, j);
      set(line, column, number(line, column) - multiplier * number(factors, j));
    }
  }
}

/** False when a pivot is zero or not a number. */
export function factor(weight: f64, drop: f64): bool {
  for (let row = 0; row < n; row++) {
    scatter(row, weight);
    eliminate(row, drop);
    for (let j = whole(upperStart, row), end = whole(upperStart, row + 1); j < end; j++)
      set(U, j, number(work, whole(upperColumn, j)));
    const inverse = 1 / number(work, row);
    set(pivot, row, inverse);
    if (!isFinite(inverse)) return false;
  }
  return true;
}

/** Numbers that shrink from cell to cell through dry soil end as subnormals, with which processors are many times slower. */
// @ts-ignore: decorator
@inline
function flushed(x: f64): f64 {
  return abs(x) < 1e-100 ? 0 : x;
}

/** Overwrites a right-hand side, by cell, with the solution. */
export function solve(rhs: usize): void {
  const line = work;
  const lower = L;
  const lowers = lowerColumn;
  for (let row = 0; row < n; row++) {
    let sum = number(rhs, whole(order, row));
    for (let k = whole(lowerStart, row), end = whole(lowerStart, row + 1); k < end; k++)
      sum -= number(lower, k) * number(line, whole(lowers, k));
    set(line, row, flushed(sum));
  }
  const upper = U;
  const uppers = upperColumn;
  for (let row = n - 1; row >= 0; row--) {
    let sum = number(line, row);
    for (let j = whole(upperStart, row), end = whole(upperStart, row + 1); j < end; j++)
      sum -= number(upper, j) * number(line, whole(uppers, j));
    sum = flushed(sum * number(pivot, row));
    set(line, row, sum);
    set(rhs, whole(order, row), sum);
  }
}
