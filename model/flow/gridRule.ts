import type { Pot } from "../pot/pot.ts";
import type { Accuracy, Problem } from "./problem.ts";
import { gradedEdges, joinEdges } from "./spacing.ts";

export interface Fineness {
  /** Size of the cells at the wall, as a share of the pot's size. */
  atWall: number;
  /** Growth from one cell to the next, away from the wall. */
  ratio: number;
  /** Error of the stored water allowed in one time step, as a share of the water given so far. */
  timeError: number;
  /**
   * See `TableOptions.wetEnd`, cm. Where clay saturates, −0.5 takes a half to a tenth of the steps that −0.1 takes and
   * adds about 1 % to what the pot gives; it changes nothing in soil that stays drier.
   */
  wetEnd: number;
}

export const FINENESS: Record<Accuracy, Fineness> = {
  live: { atWall: 0.08, ratio: 1.16, timeError: 0.04, wetEnd: -0.5 },
  standard: { atWall: 0.03, ratio: 1.09, timeError: 0.01, wetEnd: -0.5 },
  reference: { atWall: 0.02, ratio: 1.05, timeError: 0.0025, wetEnd: -0.1 },
};

/**
 * Edges of the tensor grid for a pot in its region: finest along the wall and under the base, from where the cells grow
 * by one factor. The pot's size is the geometric mean of its largest radius and its depth in the soil.
 */
export function gridLines(pot: Pot, region: Problem["region"], { atWall, ratio }: Fineness) {
  const wall = pot.outline.filter(({ r, d }) => r > 0 && d >= 0);
  const radii = wall.map(({ r }) => r);
  const [narrowest, widest] = [Math.min(...radii), Math.max(...radii)];
  const base = pot.outline.at(-1)!.d;
  const top = Math.max(pot.outline[0]!.d, 0);
  const fine = atWall * Math.sqrt(widest * (base - top));
  const run = (from: number, to: number, finest: "from" | "to") =>
    gradedEdges(from, to, finest, fine, ratio, region.depth);
  const across = widest - narrowest > fine / 2 ? [gradedEdges(narrowest, widest, "to", fine, 1, fine)] : [];
  const above = top > fine / 2 ? [run(0, top, "to")] : [];
  return {
    rEdges: joinEdges(run(0, narrowest, "to"), ...across, run(widest, region.radius, "from")),
    dEdges: joinEdges(...above, run(top, base, "to"), run(base, region.depth, "from")),
  };
}
