import { pairs, sum } from "d3-array";
import type { OutlinePoint, Pot } from "../pot/pot.ts";
import type { Accuracy, Problem } from "./problem.ts";
import { gradedEdges, joinEdges } from "./spacing.ts";

export interface Fineness {
  /** Size of the cells at the wall, as a share of the pot's size. */
  atWall: number;
  /** Width of the columns that a leaning wall crosses, over `atWall`: a cut cell is off by where it happens to be cut. */
  leaning: number;
  /** Thickness before the wall of the cells that a leaning wall crosses, on average, at most, over `atWall`. */
  thickest: number;
  /** Growth from one cell to the next away from the wall, outward and below the base. */
  out: number;
  down: number;
  /** Growth from one cell to the next along the wall, away from the corner of side and base. */
  along: number;
  /** Height of the largest cells below the pot, as a share of its size: in coarse soil a thin front sinks far. */
  tallest: number;
  /** Error of the stored water allowed in one time step, as a share of the water given so far. */
  timeError: number;
  /**
   * See `TableOptions.wetEnd`, cm. Where clay saturates, −0.5 takes a half to a tenth of the steps that −0.1 takes and
   * adds about 1 % to what the pot gives; it changes nothing in soil that stays drier.
   */
  wetEnd: number;
}

export const FINENESS: Record<Accuracy, Fineness> = {
  live: {
    atWall: 0.07,
    leaning: 0.55,
    thickest: 0.8,
    out: 1.12,
    down: 1.25,
    along: 1.18,
    tallest: 0.9,
    timeError: 0.06,
    wetEnd: -0.5,
  },
  standard: {
    atWall: 0.038,
    leaning: 0.65,
    thickest: 1,
    out: 1.08,
    down: 1.125,
    along: 1.16,
    tallest: 0.32,
    timeError: 0.03,
    wetEnd: -0.2,
  },
  reference: {
    atWall: 0.018,
    leaning: 0.7,
    thickest: 1,
    out: 1.06,
    down: 1.06,
    along: 1.06,
    tallest: 0.12,
    timeError: 0.005,
    wetEnd: -0.1,
  },
};

/**
 * Largest errors that a setting may have against `reference`, as shares, on any soil class, start, filling and pot: of the
 * water given, of an edge's radius and depth while it goes outward, and of the day on which the pot runs empty.
 */
export const ALLOWED_ERROR: Record<Accuracy, { seepage: number; radius: number; depth: number; emptying: number }> = {
  live: { seepage: 0.015, radius: 0.02, depth: 0.05, emptying: 0.02 },
  standard: { seepage: 0.005, radius: 0.01, depth: 0.01, emptying: 0.005 },
  reference: { seepage: 0.005, radius: 0.01, depth: 0.01, emptying: 0.005 },
};

/** The same with cells twice as large everywhere. */
export function coarser({ atWall, out, down, along, tallest, ...same }: Fineness): Fineness {
  return { ...same, atWall: 2 * atWall, out: out ** 2, down: down ** 2, along: along ** 2, tallest: 2 * tallest };
}

/**
 * Edges of the tensor grid for a pot in its region: finest at the corner of side and base, from where the cells grow
 * away from the wall and, faster, along it. The pot's size is the geometric mean of its largest radius and its depth in
 * the soil.
 */
export function gridLines(
  pot: Pot,
  region: Problem["region"],
  { atWall, leaning, thickest, out, down, along, tallest }: Fineness,
) {
  const wall = sideInSoil(pot.outline);
  const radii = wall.map(({ r }) => r);
  const [narrowest, widest] = [Math.min(...radii), Math.max(...radii)];
  const base = pot.outline.at(-1)!.d;
  const top = Math.max(pot.outline[0]!.d, 0);
  const size = Math.sqrt(widest * (base - top));
  const fine = atWall * size;
  const run = (from: number, to: number, finest: "from" | "to", ratio: number, largest = region.depth) =>
    gradedEdges(from, to, finest, fine, ratio, largest);
  const across = widest - narrowest > fine / 2 ? [gradedEdges(narrowest, widest, "to", leaning * fine, 1, fine)] : [];
  const above = top > fine / 2 ? [run(0, top, "to", along)] : [];
  return {
    rEdges: joinEdges(run(0, narrowest, "to", along), ...across, run(widest, region.radius, "from", out)),
    dEdges: joinEdges(
      ...above,
      run(top, base, "to", along, tallestBeside(wall, thickest * fine)),
      run(base, region.depth, "from", down, tallest * size),
    ),
  };
}

/** The pot's side from the soil surface, or from the rim of a pot sunk below it, to the base. */
function sideInSoil(outline: readonly OutlinePoint[]): OutlinePoint[] {
  const side = outline.filter(({ r }) => r > 0);
  return side.flatMap((point, k) => {
    const below = side[k + 1];
    if (point.d >= 0) return [point];
    if (!below || below.d <= 0) return [];
    return [{ r: point.r + ((below.r - point.r) * -point.d) / (below.d - point.d), d: 0 }];
  });
}

/** Rows that a leaning wall crosses are low enough for its cells to be, on average, no thicker than `thickest`, cm. */
function tallestBeside(wall: readonly OutlinePoint[], thickest: number): number {
  const chords = pairs(wall).filter(([from, to]) => to.d > from.d);
  const across = sum(chords, ([from, to]) => Math.abs(to.r - from.r));
  const along = sum(chords, ([from, to]) => Math.hypot(to.r - from.r, to.d - from.d));
  return across > 0 ? (thickest * along) / across : Number.POSITIVE_INFINITY;
}
