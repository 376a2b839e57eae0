import { bisectRight, pairs } from "d3-array";
import { entry, first } from "../input/lists.ts";
import type { GridLines } from "./run.ts";

/** A cell field of a run at the point (r, d), cm, as `sampleRows` has it. */
export const sampleField = (grid: GridLines, field: Float64Array, r: number, d: number, angle = 0): number =>
  first(sampleRows(grid, field, [r], [d], angle));

/**
 * A cell field of a run at every distance `r` from the axis in every depth `d`, cm, row by row: bilinear between the four
 * nearest cell centres, those inside the pot left out and the rest weighted up. Outside the region the nearest cells
 * count; NaN deep inside the pot. Where rings are cut into sectors, `angle` tells the direction, from 0 towards the next
 * pot to the last sector's edge, and the field is linear in it as well.
 */
export function sampleRows(
  grid: GridLines,
  field: Float64Array,
  r: readonly number[],
  d: readonly number[],
  angle = 0,
): number[] {
  const width = grid.rCentre.length;
  const columns = r.map((each) => nearest(grid.rCentre, each, 1));
  const sectors = grid.sectors ? nearest(middles(grid.sectors.edges), angle, width * grid.dCentre.length) : [ALL];
  return d.flatMap((each) => {
    const starts = nearest(grid.dCentre, each, width).flatMap((row) => sectors.map((sector) => both(row, sector)));
    return columns.map((column) => weightedMean(grid.cellAt, field, column, starts));
  });
}

/** Places in the table of cells, and how much the cell there counts. */
interface Weighted {
  at: number;
  weight: number;
}

const ALL: Weighted = { at: 0, weight: 1 };

const both = (a: Weighted, b: Weighted): Weighted => ({ at: a.at + b.at, weight: a.weight * b.weight });

function weightedMean(cellAt: Int32Array, field: Float64Array, columns: Weighted[], starts: Weighted[]): number {
  let sum = 0;
  let weights = 0;
  for (const start of starts)
    for (const column of columns) {
      const cell = entry(cellAt, start.at + column.at);
      if (cell < 0) continue;
      const weight = start.weight * column.weight;
      sum += weight * entry(field, cell);
      weights += weight;
    }
  return sum / weights;
}

const middles = (edges: Float64Array) => Float64Array.from(pairs(edges), ([from, to]) => (from + to) / 2);

/** The one or two centres that count at `x`; the table has `stride` entries from one centre to the next. */
function nearest(centre: Float64Array, x: number, stride: number): Weighted[] {
  const cell = Math.min(Math.max(bisectRight(centre, x) - 1, 0), Math.max(centre.length - 2, 0));
  const from = entry(centre, cell);
  const share = Math.min(Math.max((x - from) / (entry(centre, cell + 1) - from), 0), 1);
  const ends = [
    { at: cell * stride, weight: 1 - share },
    { at: (cell + 1) * stride, weight: share },
  ];
  return ends.filter(({ weight }) => weight > 0);
}
