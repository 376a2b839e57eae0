import { bisectRight, pairs } from "d3-array";
import { entry } from "../input/lists.ts";
import type { GridLines } from "./run.ts";

/**
 * A cell field of a run at the point (r, d), cm: bilinear between the four nearest cell centres, those inside the pot
 * left out and the rest weighted up. Outside the region the nearest cells count; NaN deep inside the pot. Where rings are cut
 * into sectors, `angle` tells the direction, from 0 towards the next pot to the last sector's edge, and the field is linear
 * in it as well.
 */
export function sampleField(grid: GridLines, field: Float64Array, r: number, d: number, angle = 0): number {
  const [i, right] = between(grid.rCentre, r);
  const [j, below] = between(grid.dCentre, d);
  const [k, turned] = grid.sectors ? between(middles(grid.sectors.edges), angle) : [0, 0];
  const columns = grid.rEdges.length - 1;
  const rows = grid.dEdges.length - 1;
  let sum = 0;
  let weights = 0;
  for (const [sector, sectorWeight] of ends(k, turned))
    for (const [row, rowWeight] of ends(j, below))
      for (const [column, columnWeight] of ends(i, right)) {
        const weight = sectorWeight * rowWeight * columnWeight;
        const cell = weight > 0 ? entry(grid.cellAt, (sector * rows + row) * columns + column) : -1;
        if (cell < 0) continue;
        sum += weight * entry(field, cell);
        weights += weight;
      }
  return sum / weights;
}

const middles = (edges: Float64Array) => Float64Array.from(pairs(edges), ([from, to]) => (from + to) / 2);

const ends = (k: number, share: number) =>
  [
    [k, 1 - share],
    [k + 1, share],
  ] as const;

/** The cell whose centre lies before `x`, and how far `x` is on the way to the next centre, from 0 to 1. */
function between(centre: Float64Array, x: number): [cell: number, share: number] {
  const cell = Math.min(Math.max(bisectRight(centre, x) - 1, 0), Math.max(centre.length - 2, 0));
  const from = entry(centre, cell);
  const share = (x - from) / (entry(centre, cell + 1) - from);
  return [cell, Math.min(Math.max(share, 0), 1)];
}
