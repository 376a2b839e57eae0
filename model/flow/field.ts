import { bisectRight } from "d3-array";
import type { GridLines } from "./run.ts";

/**
 * A cell field of a run at the point (r, d), cm: bilinear between the four nearest cell centres, those inside the pot
 * left out and the rest weighted up. Outside the region the nearest cells count; NaN deep inside the pot.
 */
export function sampleField(grid: GridLines, field: Float64Array, r: number, d: number): number {
  const [i, right] = between(grid.rCentre, r);
  const [j, below] = between(grid.dCentre, d);
  const columns = grid.rEdges.length - 1;
  let sum = 0;
  let weights = 0;
  for (const [column, row, weight] of [
    [i, j, (1 - right) * (1 - below)],
    [i + 1, j, right * (1 - below)],
    [i, j + 1, (1 - right) * below],
    [i + 1, j + 1, right * below],
  ] as const) {
    const cell = weight > 0 ? grid.cellAt[row * columns + column]! : -1;
    if (cell < 0) continue;
    sum += weight * field[cell]!;
    weights += weight;
  }
  return sum / weights;
}

/** The cell whose centre lies before `x`, and how far `x` is on the way to the next centre, from 0 to 1. */
function between(centre: Float64Array, x: number): [cell: number, share: number] {
  const cell = Math.min(Math.max(bisectRight(centre, x) - 1, 0), Math.max(centre.length - 2, 0));
  const share = (x - centre[cell]!) / (centre[cell + 1]! - centre[cell]!);
  return [cell, Math.min(Math.max(share, 0), 1)];
}
