import { bisectLeft } from "d3-array";
import { type CellLine, edgePlace, type FrontShape } from "./front.ts";
import type { Edge } from "./problem.ts";
import type { GridLines } from "./run.ts";

/** Cells by place, from which rows and columns are read. */
export interface CellFields {
  h: Float64Array;
  theta: Float64Array;
  rCell: Float64Array;
  dCell: Float64Array;
}

/**
 * Radius of an edge along a line at the edge's depth: found in the two rows whose centres lie above and below it, and
 * interpolated between them.
 */
export function edgeRadius(grid: GridLines, cells: CellFields, { head, depth }: Edge, shape: FrontShape): number {
  const centres = grid.dCentre;
  const below = Math.min(bisectLeft(centres, depth), centres.length - 1);
  const above = Math.max(below - 1, 0);
  const inRow = (j: number) => edgePlace(rowLine(grid, cells, j), head, shape);
  const [near, far] = [inRow(above), inRow(below)];
  if (above === below || near === 0 || far === 0) return depth - centres[above]! < centres[below]! - depth ? near : far;
  const share = (depth - centres[above]!) / (centres[below]! - centres[above]!);
  return near + Math.min(Math.max(share, 0), 1) * (far - near);
}

/** Depth of an edge along the axis. */
export function edgeDepth(grid: GridLines, cells: CellFields, head: number, shape: FrontShape): number {
  return edgePlace(axisLine(grid, cells), head, shape);
}

/** The cells of a row from the pot outward. */
function rowLine({ rEdges, cellAt }: GridLines, cells: CellFields, j: number): CellLine {
  const columns = rEdges.length - 1;
  const row = Array.from({ length: columns }, (_, i) => cellAt[j * columns + i]!);
  return lineOf(cells, cells.rCell, row, rEdges, "outward");
}

/** The cells below the pot on the axis. */
function axisLine({ rEdges, dEdges, cellAt }: GridLines, cells: CellFields): CellLine {
  const columns = rEdges.length - 1;
  const column = Array.from({ length: dEdges.length - 1 }, (_, j) => cellAt[j * columns]!);
  return lineOf(cells, cells.dCell, column, dEdges, "down");
}

/** The last unbroken run of cells; slivers joined to a neighbour count once. */
function lineOf(
  { h, theta }: CellFields,
  centre: Float64Array,
  numbers: number[],
  edges: Float64Array,
  direction: CellLine["direction"],
): CellLine {
  const start = numbers.lastIndexOf(-1) + 1;
  const places = numbers.map((_, k) => k).filter((k) => k >= start && numbers[k] !== numbers[k + 1]);
  const pick = (value: (k: number) => number) => Float64Array.from(places, value);
  return {
    x: pick((k) => centre[numbers[k]!]!),
    end: pick((k) => edges[k + 1]!),
    h: pick((k) => h[numbers[k]!]!),
    theta: pick((k) => theta[numbers[k]!]!),
    direction,
  };
}
