import { entry, last } from "../input/lists.ts";
import { layout, type Numbers, startKernel } from "./kernel/kernel.ts";
import type { Mesh } from "./mesh.ts";
import type { Elimination } from "./ordering.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/** A matrix with the mesh's pattern: row of cell i has `diagonal[i]` and an entry for each of its faces. */
export interface MeshMatrix {
  diagonal: Float64Array;
  /** Row a, column b of each face. */
  ab: Float64Array;
  /** Row b, column a of each face. */
  ba: Float64Array;
}

export const meshMatrix = (mesh: Mesh): MeshMatrix => ({
  diagonal: new Float64Array(mesh.cellCount),
  ab: new Float64Array(mesh.faces.a.length),
  ba: new Float64Array(mesh.faces.a.length),
});

export interface SparseLU {
  /** False when a pivot is zero or not a number; `solve` must then not be called. */
  factor(matrix: MeshMatrix): boolean;
  /** Overwrites the right-hand side (by cell) with the solution. */
  solve(rhs: Float64Array): void;
}

/**
 * LU without pivoting (the diagonal dominates) in a fixed elimination order, row by row with a dense work row. A
 * multiplier is the share of one cell's imbalance that elimination passes to another, so those below `drop` are skipped:
 * cells that the water has not reached then cost next to nothing. The factors are inexact by that much, which Newton's
 * method does not notice.
 *
 * The packages for this are dense, or unmaintained and with pivoting: hence our own. The loops are a WebAssembly kernel
 * (`kernel/elimination.as`), for they take half of a run's time and are three times as fast there.
 */
export function sparseLU(mesh: Mesh, { order, later }: Elimination, drop = 1e-4): SparseLU {
  const n = mesh.cellCount;
  const place = new Int32Array(n);
  order.forEach((cell, p) => {
    place[cell] = p;
  });
  const upper = rowsOf(later.map((cells) => cells.map((cell) => entry(place, cell)).sort()));
  const lower = transposed(upper);
  const entries = matrixEntries(mesh, place);
  const memory = layout();
  const pattern = [lower.start, lower.column, upper.start, upper.column, entries.start, entries.column, entries.face];
  const whole = [...pattern, order].map((array) => memory.whole(array));
  const faceCount = mesh.faces.a.length;
  const [diagonal, ab, ba] = [memory.numbers(n), memory.numbers(faceCount), memory.numbers(faceCount)];
  const [L, U] = [memory.numbers(lower.column.length), memory.numbers(upper.column.length)];
  const [pivot, work, right] = [memory.numbers(n), memory.numbers(n), memory.numbers(n)];
  const kernel = startKernel(memory.size());
  for (const { at, values } of whole) new Int32Array(kernel.memory.buffer, at, values.length).set(values);
  const places = [...whole, diagonal, ab, ba, L, U, pivot, work, right].map(({ at }) => at);
  kernel.place(n, drop, ...places);
  const view = ({ at, count }: Numbers) => new Float64Array(kernel.memory.buffer, at, count);
  const [inDiagonal, inAb, inBa, inRight] = [view(diagonal), view(ab), view(ba), view(right)];

  return {
    factor(matrix) {
      inDiagonal.set(matrix.diagonal);
      inAb.set(matrix.ab);
      inBa.set(matrix.ba);
      return Boolean(kernel.factor());
    },
    solve(rhs) {
      inRight.set(rhs);
      kernel.solve();
      rhs.set(inRight);
    },
  };
}

/** Compressed rows: the columns of row i are column[start[i] .. start[i + 1]), ascending. */
interface Rows {
  start: Int32Array;
  column: Int32Array;
}

function rowsOf(columns: readonly Int32Array[]): Rows {
  const start = starts(Int32Array.from(columns, ({ length }) => length));
  const column = new Int32Array(last(start));
  for (const [i, own] of columns.entries()) column.set(own, start[i]);
  return { start, column };
}

/** Where each of consecutive rows begins, and at last where they end. */
function starts(lengths: Int32Array): Int32Array {
  const start = new Int32Array(lengths.length + 1);
  let end = 0;
  for (const [i, length] of lengths.entries()) {
    end += length;
    start[i + 1] = end;
  }
  return start;
}

function transposed({ start, column }: Rows): Rows {
  const n = start.length - 1;
  const lengths = new Int32Array(n);
  for (const j of column) lengths[j]!++;
  const result = { start: starts(lengths), column: new Int32Array(column.length) };
  const next = result.start.slice(0, n);
  for (let i = 0; i < n; i++) for (let k = start[i]!; k < start[i + 1]!; k++) result.column[next[column[k]!]!++] = i;
  return result;
}

/** Off-diagonal entries by row place: `face` f means ab[f], −1 − f means ba[f]. */
function matrixEntries({ cellCount, faces }: Mesh, place: Int32Array): Rows & { face: Int32Array } {
  const lengths = new Int32Array(cellCount);
  for (const side of [faces.a, faces.b]) for (const cell of side) lengths[place[cell]!]!++;
  const start = starts(lengths);
  const next = start.slice(0, cellCount);
  const column = new Int32Array(2 * faces.a.length);
  const face = new Int32Array(2 * faces.a.length);
  const put = (row: number, to: number, number: number) => {
    const k = next[row]!++;
    column[k] = to;
    face[k] = number;
  };
  for (let f = 0; f < faces.a.length; f++) {
    const [a, b] = [place[faces.a[f]!]!, place[faces.b[f]!]!];
    put(a, b, f);
    put(b, a, -1 - f);
  }
  return { start, column, face };
}
