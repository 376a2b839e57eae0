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
 * The packages for this are dense, or unmaintained and with pivoting: hence our own.
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
  const [upperStart, upperColumn] = [upper.start, upper.column];
  const [lowerStart, lowerColumn] = [lower.start, lower.column];
  const U = new Float64Array(upperColumn.length);
  const L = new Float64Array(lowerColumn.length);
  const pivot = new Float64Array(n);
  const work = new Float64Array(n);
  const permuted = new Float64Array(n);

  function scatter(row: number, matrix: MeshMatrix): void {
    for (let k = lowerStart[row]!; k < lowerStart[row + 1]!; k++) work[lowerColumn[k]!] = 0;
    for (let k = upperStart[row]!; k < upperStart[row + 1]!; k++) work[upperColumn[k]!] = 0;
    work[row] = matrix.diagonal[order[row]!]!;
    for (let k = entries.start[row]!; k < entries.start[row + 1]!; k++) {
      const face = entries.face[k]!;
      work[entries.column[k]!]! += face >= 0 ? matrix.ab[face]! : matrix.ba[-1 - face]!;
    }
  }

  /** Takes from the work row its multiples of the rows above. */
  function eliminate(row: number): void {
    const end = lowerStart[row + 1]!;
    for (let k = lowerStart[row]!; k < end; k++) {
      const above = lowerColumn[k]!;
      const multiplier = work[above]! * pivot[above]!;
      if (multiplier < drop && multiplier > -drop) {
        L[k] = 0;
        continue;
      }
      L[k] = multiplier;
      const last = upperStart[above + 1]!;
      for (let j = upperStart[above]!; j < last; j++) work[upperColumn[j]!]! -= multiplier * U[j]!;
    }
  }

  function factor(matrix: MeshMatrix): boolean {
    for (let row = 0; row < n; row++) {
      scatter(row, matrix);
      eliminate(row);
      const end = upperStart[row + 1]!;
      for (let j = upperStart[row]!; j < end; j++) U[j] = work[upperColumn[j]!]!;
      pivot[row] = 1 / work[row]!;
      if (!Number.isFinite(pivot[row]!)) return false;
    }
    return true;
  }

  function solve(rhs: Float64Array): void {
    for (let row = 0; row < n; row++) {
      let sum = rhs[order[row]!]!;
      const end = lowerStart[row + 1]!;
      for (let k = lowerStart[row]!; k < end; k++) sum -= L[k]! * permuted[lowerColumn[k]!]!;
      permuted[row] = flushed(sum);
    }
    for (let row = n - 1; row >= 0; row--) {
      let sum = permuted[row]!;
      const end = upperStart[row + 1]!;
      for (let j = upperStart[row]!; j < end; j++) sum -= U[j]! * permuted[upperColumn[j]!]!;
      permuted[row] = flushed(sum * pivot[row]!);
      rhs[order[row]!] = permuted[row]!;
    }
  }

  return { factor, solve };
}

/** Numbers that shrink from cell to cell through dry soil end as subnormals, with which processors are many times slower. */
const flushed = (x: number) => (x < TINY && x > -TINY ? 0 : x);

const TINY = 1e-100;

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
