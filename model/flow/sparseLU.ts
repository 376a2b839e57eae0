import { layout, type Numbers, startKernel } from "./kernel/kernel.ts";
import type { Mesh } from "./mesh.ts";
import type { Elimination } from "./ordering.ts";

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
  const upper = rowsOf(later.map((cells) => Int32Array.from(cells, (c) => place[c]!).sort()));
  const lower = transposed(upper, n);
  const entries = matrixEntries(mesh, place);
  const memory = layout();
  const pattern = [lower.start, lower.column, upper.start, upper.column, entries.start, entries.column, entries.face];
  const whole = [...pattern, order].map((array) => memory.whole(array));
  const faceCount = mesh.faces.a.length;
  const [diagonal, ab, ba] = [n, faceCount, faceCount].map((count) => memory.numbers(count));
  const [L, U] = [lower.column.length, upper.column.length].map((count) => memory.numbers(count));
  const [pivot, work, right] = [n, n, n].map((count) => memory.numbers(count));
  const kernel = startKernel(memory.size());
  for (const { at, values } of whole) new Int32Array(kernel.memory.buffer, at, values.length).set(values);
  const places = [...whole, diagonal!, ab!, ba!, L!, U!, pivot!, work!, right!].map(({ at }) => at);
  kernel.place(n, drop, ...places);
  const view = ({ at, count }: Numbers) => new Float64Array(kernel.memory.buffer, at, count);
  const [inDiagonal, inAb, inBa, inRight] = [diagonal!, ab!, ba!, right!].map(view);

  return {
    factor(matrix) {
      inDiagonal!.set(matrix.diagonal);
      inAb!.set(matrix.ab);
      inBa!.set(matrix.ba);
      return Boolean(kernel.factor());
    },
    solve(rhs) {
      inRight!.set(rhs);
      kernel.solve();
      rhs.set(inRight!);
    },
  };
}

/** Compressed rows: the columns of row i are column[start[i] .. start[i + 1]), ascending. */
interface Rows {
  start: Int32Array;
  column: Int32Array;
}

function rowsOf(columns: Int32Array[]): Rows {
  const start = new Int32Array(columns.length + 1);
  columns.forEach((row, i) => {
    start[i + 1] = start[i]! + row.length;
  });
  const column = new Int32Array(start[columns.length]!);
  columns.forEach((row, i) => {
    column.set(row, start[i]!);
  });
  return { start, column };
}

function transposed({ start, column }: Rows, n: number): Rows {
  const columns: number[][] = Array.from({ length: n }, () => []);
  for (let i = 0; i < n; i++) for (let k = start[i]!; k < start[i + 1]!; k++) columns[column[k]!]!.push(i);
  return rowsOf(columns.map((row) => Int32Array.from(row)));
}

/** Off-diagonal entries by row place: `face` f means ab[f], −1 − f means ba[f]. */
function matrixEntries({ cellCount, faces }: Mesh, place: Int32Array): Rows & { face: Int32Array } {
  const rows: { column: number; face: number }[][] = Array.from({ length: cellCount }, () => []);
  for (let f = 0; f < faces.a.length; f++) {
    const [a, b] = [place[faces.a[f]!]!, place[faces.b[f]!]!];
    rows[a]!.push({ column: b, face: f });
    rows[b]!.push({ column: a, face: -1 - f });
  }
  const face = Int32Array.from(rows.flatMap((row) => row.map((entry) => entry.face)));
  return { ...rowsOf(rows.map((row) => Int32Array.from(row, (entry) => entry.column))), face };
}
