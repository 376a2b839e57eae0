import { pairs } from "d3-array";
import { entry } from "../input/lists.ts";
import type { OutlinePoint } from "../pot/pot.ts";

/**
 * A stretch of the pot's outer surface within one cell of the tensor grid. The cut is exact, so wall area and soil
 * volume are those of the pot on any grid.
 */
export interface WallPiece {
  /** Column and row of the cell whose soil it touches. */
  i: number;
  j: number;
  /** Upper and lower end. */
  start: OutlinePoint;
  end: OutlinePoint;
  /** Area of the full ring, cm². */
  area: number;
  /** Unit normal into the soil. */
  normal: OutlinePoint;
}

/** What the pot takes from each cell (at [j * columns + i]) and from each face. */
export interface PotCut {
  pieces: WallPiece[];
  /** Pot volume in the cell. */
  volume: Float64Array;
  /** Height covered of the cell's outer vertical face. */
  coveredHeight: Float64Array;
  /** Radius covered of each horizontal grid line, by index of dEdges. */
  coveredRadius: Float64Array;
}

/** Cuts the solid of revolution inside `outline` (rim to axis; parts above the soil are left out) from a grid. */
export function cutPot(outline: readonly OutlinePoint[], rEdges: Float64Array, dEdges: Float64Array): PotCut {
  const [columns, rows] = [rEdges.length - 1, dEdges.length - 1];
  const cut: PotCut = {
    pieces: [],
    volume: new Float64Array(columns * rows),
    coveredHeight: new Float64Array(columns * rows),
    coveredRadius: new Float64Array(rows + 1),
  };
  for (const [start, end] of gridStretches(outline, rEdges, dEdges)) {
    coverLines(cut.coveredRadius, dEdges, start, end);
    if (end.d > start.d) takeFromRow(cut, rEdges, dEdges, start, end);
    if (start.r > 0 || end.r > 0) addPiece(cut.pieces, wallPiece(rEdges, dEdges, start, end));
  }
  return cut;
}

/** How far two neighbours may differ in direction and still be one piece: the cosine of about 25°. */
const NEARLY_STRAIGHT = 0.9;

/** A curved wall comes in short chords: those that follow each other through one cell are one piece, a corner is two. */
function addPiece(pieces: WallPiece[], next: WallPiece): void {
  const last = pieces.at(-1);
  const isOne =
    last?.i === next.i &&
    last.j === next.j &&
    last.normal.r * next.normal.r + last.normal.d * next.normal.d > NEARLY_STRAIGHT;
  if (isOne) pieces[pieces.length - 1] = joined(last, next);
  else pieces.push(next);
}

function joined(one: WallPiece, other: WallPiece): WallPiece {
  const sum = (along: "r" | "d") => one.area * one.normal[along] + other.area * other.normal[along];
  const length = Math.hypot(sum("r"), sum("d"));
  return {
    ...one,
    end: other.end,
    area: one.area + other.area,
    normal: { r: sum("r") / length, d: sum("d") / length },
  };
}

/** The outline below the soil surface, split wherever it crosses a grid line. */
function gridStretches(outline: readonly OutlinePoint[], rEdges: Float64Array, dEdges: Float64Array) {
  const stretches: [OutlinePoint, OutlinePoint][] = [];
  for (const [p, q] of pairs(outline)) {
    const crossings = [0, 1, ...crossed(p.r, q.r, rEdges), ...crossed(p.d, q.d, dEdges), ...crossed(p.d, q.d, [0])];
    const points = crossings.sort((s, t) => s - t).map((t) => ({ r: mix(p.r, q.r, t), d: mix(p.d, q.d, t) }));
    for (const [start, end] of pairs(points)) {
      const isBelowSurface = start.d + end.d > 0;
      if (isBelowSurface && Math.hypot(end.r - start.r, end.d - start.d) > 1e-9) stretches.push([start, end]);
    }
  }
  return stretches;
}

const mix = (p: number, q: number, t: number) => (t === 1 ? q : p + (q - p) * t);

const crossed = (from: number, to: number, lines: ArrayLike<number>): number[] =>
  Array.from(lines, (line) => (line - from) / (to - from)).filter((share) => share > 0 && share < 1);

function coverLines(covered: Float64Array, dEdges: Float64Array, start: OutlinePoint, end: OutlinePoint): void {
  for (const { r, d } of [start, end]) {
    const line = indexOfLine(dEdges, d);
    if (line >= 0) covered[line] = Math.max(entry(covered, line), r);
  }
}

function indexOfLine(edges: Float64Array, value: number): number {
  return edges.findIndex((edge) => Math.abs(edge - value) < 1e-9);
}

/** Index of the cell that holds a place; on a line, the one after it. */
function indexOfCell(edges: Float64Array, value: number): number {
  const next = edges.findIndex((edge, k) => k > 0 && !(value >= edge));
  return next < 0 ? edges.length - 2 : Math.min(next - 1, edges.length - 2);
}

/** Volume of the pot between the depths of one stretch, whose radius runs linearly within one column. */
function takeFromRow(
  cut: PotCut,
  rEdges: Float64Array,
  dEdges: Float64Array,
  start: OutlinePoint,
  end: OutlinePoint,
): void {
  const columns = rEdges.length - 1;
  const j = indexOfCell(dEdges, (start.d + end.d) / 2);
  const last = indexOfCell(rEdges, (start.r + end.r) / 2);
  const height = end.d - start.d;
  for (const [i, [inner, outer]] of pairs(rEdges.subarray(0, last + 2)).entries()) {
    const [r1, r2] = i < last ? [outer, outer] : [start.r, end.r];
    const cell = j * columns + i;
    const meanSquare = (r1 * r1 + r1 * r2 + r2 * r2) / 3;
    cut.volume[cell]! += Math.PI * height * (meanSquare - inner * inner);
    if (i < last) cut.coveredHeight[cell]! += height;
  }
}

function wallPiece(rEdges: Float64Array, dEdges: Float64Array, start: OutlinePoint, end: OutlinePoint): WallPiece {
  const length = Math.hypot(end.r - start.r, end.d - start.d);
  const normal = { r: (end.d - start.d) / length, d: (start.r - end.r) / length };
  // A hair's breadth into the soil decides on which side of a grid line a stretch along it lies.
  const inSoil = (p: number, q: number, n: number) => (p + q) / 2 + 1e-7 * n;
  return {
    i: indexOfCell(rEdges, inSoil(start.r, end.r, normal.r)),
    j: indexOfCell(dEdges, inSoil(start.d, end.d, normal.d)),
    start,
    end,
    area: Math.PI * (start.r + end.r) * length,
    normal,
  };
}
