import { sum } from "d3-array";
import { entry, last } from "../input/lists.ts";
import {
  CELL_FIELDS,
  type CellField,
  FACE_FIELDS,
  type FaceField,
  type Loops,
  type Placed,
  type Room,
  startKernel,
} from "./kernel/kernel.ts";
import type { Mesh } from "./mesh.ts";
import type { Elimination } from "./ordering.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * The loops of the solver, with a mesh, the pattern of its factors, and the arrays of one run at a time.
 *
 * The linear solver is LU without pivoting (the diagonal dominates) in a fixed elimination order, row by row with a dense
 * work row. A multiplier is the share of one cell's imbalance that elimination passes to another, so those below `drop`
 * are skipped: cells that the water has not reached then cost next to nothing. The factors are inexact by that much,
 * which Newton's method hardly ever notices. Where water passes so easily between many cells that they fill and drain as
 * one, each share is small but all of them are the answer: then none may be skipped. The packages for this are dense, or
 * unmaintained and with pivoting: hence our own.
 */
export interface MeshKernel {
  readonly loops: Loops;
  readonly cells: Readonly<Record<CellField, Float64Array>>;
  readonly faces: Readonly<Record<FaceField, Float64Array>>;
  /** Address of the soil's table, by cell. */
  readonly tables: Int32Array;
  addressOf(field: CellField): number;
  /** The factors of a stage's matrix, none skipped where `isWhole`; false when a pivot is zero or not a number. */
  factor(weight: number, isWhole: boolean): boolean;
  /** Room for the arrays of a new run; those of the run before are given up, and the cells emptied. */
  beginRun(): Room;
}

/** For tables of the closest nodes, and for edges and roots of about as many faces as there are cells. */
const RUN_BYTES = 2 ** 21;
const RUN_BYTES_PER_CELL = 200;

/** A multiplier that passes nothing on. */
const NOTHING = 1e-12;

export function meshKernel(mesh: Mesh, elimination: Elimination, drop = 1e-3): MeshKernel {
  const {
    cellCount: n,
    faces: { a, b, T, drop: fall },
  } = mesh;
  const { lists, counts } = factorPattern(mesh, elimination);
  const fields = CELL_FIELDS.length * n + FACE_FIELDS.length * T.length;
  const bytes =
    4 * (sum(lists, ({ length }) => length) + 2 * T.length + n) + 8 * (sum(counts) + fields + lists.length + 3);
  const { loops, room } = startKernel(bytes + RUN_BYTES + RUN_BYTES_PER_CELL * n);
  const factors = [...lists.map(room.wholes), ...counts.map(room.numbers)].map(({ at }) => at);
  const [cells, faces] = [placedFields(CELL_FIELDS, n, room), placedFields(FACE_FIELDS, T.length, room)];
  const tables = room.wholes(new Int32Array(n));
  loops.placeMesh(n, T.length, cells.V.at, faces.T.at, room.wholes(a).at, room.wholes(b).at, tables.at);
  loops.placeFactors(...factors);
  faces.drop.values.set(fall);
  const end = room.end;
  return {
    loops,
    cells: valuesOf(cells),
    faces: valuesOf(faces),
    tables: tables.values,
    addressOf: (field) => cells[field].at,
    factor: (weight, isWhole) => Boolean(loops.factor(weight, isWhole ? Math.min(drop, NOTHING) : drop)),
    beginRun() {
      room.cutBack(end);
      for (const { values } of Object.values(cells)) values.fill(0);
      cells.V.values.set(mesh.V);
      cells.uFilled.values.fill(Number.NaN);
      faces.T.values.set(T);
      return room;
    },
  };
}

/** Arrays of one length, one after another. */
const placedFields = <Name extends string>(names: readonly Name[], count: number, { numbers }: Room) =>
  Object.fromEntries(names.map((name) => [name, numbers(count)])) as Record<Name, Placed<Float64Array>>;

const valuesOf = <Name extends string>(fields: Record<Name, Placed<Float64Array>>) =>
  Object.fromEntries(
    Object.entries<Placed<Float64Array>>(fields).map(([name, { values }]) => [name, values]),
  ) as Record<Name, Float64Array>;

/** Lists of whole numbers, and how many numbers L, U, the pivots and the work row have, as the loops ask for them. */
function factorPattern(mesh: Mesh, { order, later }: Elimination): { lists: Int32Array[]; counts: number[] } {
  const place = new Int32Array(mesh.cellCount);
  order.forEach((cell, p) => {
    place[cell] = p;
  });
  const upper = rowsOf(later.map((cells) => cells.map((cell) => entry(place, cell)).sort()));
  const lower = transposed(upper);
  const { start, column, face } = matrixEntries(mesh, place);
  return {
    lists: [lower.start, lower.column, upper.start, upper.column, start, column, face, order],
    counts: [lower.column.length, upper.column.length, mesh.cellCount, mesh.cellCount],
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
