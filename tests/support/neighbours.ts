import { equalCircle } from "../../model/bed/potGrid.ts";
import { FINENESS, type Fineness } from "../../model/flow/gridRule.ts";
import type { Neighbours, Problem } from "../../model/flow/problem.ts";

/** The same pot and soil with others about it, and in the circle of the same area. */
export function among(problem: Problem, neighbours: Neighbours): { cell: Problem; circle: Problem } {
  const region = { radius: equalCircle(neighbours.grid, neighbours.spacing), depth: 130 };
  return { cell: { ...problem, region, neighbours }, circle: { ...problem, region } };
}

/** What the other settings are held against in three dimensions: half-way to `reference`, which takes minutes there. */
export const FINER: Fineness = {
  ...FINENESS.standard,
  atWall: 0.028,
  out: 1.06,
  down: 1.09,
  along: 1.11,
  sectors: 6,
  timeError: 0.015,
};
