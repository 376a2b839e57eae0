import { pairs, sort, sum } from "d3-array";
import { entry, first, last } from "../input/lists.ts";
import type { OutlinePoint, Pot } from "../pot/pot.ts";
import { gradedEdges, joinEdges } from "./gridSpacing.ts";
import type { Accuracy, Neighbours } from "./problem.ts";

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
  /**
   * In place of those above where roots grow: a cell that a front has half filled is drunk from as if all of it were moist,
   * so that columns stay narrower far out, and need not be so fine beside the wall.
   */
  amongRoots: { atWall: number; out: number; along: number };
  /** Height of the largest cells below the pot, as a share of its size: in coarse soil a thin front sinks far. */
  tallest: number;
  /** Most cells of one size in a row: a pot that is small for its block, or flat, is not followed more finely. */
  mostEven: number;
  /** Most boxes of rows and columns: a grid with more is made coarser, which common pots never need. */
  mostBoxes: number;
  /** Height of the first row below a surface that rain and air reach, cm: dry soil there may be millimetres thick. */
  atSurface: number;
  /** Parts of a ring from the middle of a side to a corner, where pots all about are solved in three dimensions. */
  sectors: number;
  /** Error of the stored water allowed in one time step, as a share of the water given so far. */
  timeError: number;
  /** Share of that error at which Newton's method stops. */
  newtonError: number;
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
    amongRoots: { atWall: 0.09, out: 1.04, along: 1.35 },
    tallest: 0.9,
    mostEven: 40,
    mostBoxes: 2000,
    atSurface: 0.5,
    sectors: 3,
    timeError: 0.09,
    newtonError: 0.2,
    wetEnd: -0.5,
  },
  standard: {
    atWall: 0.038,
    leaning: 0.65,
    thickest: 1,
    out: 1.08,
    down: 1.125,
    along: 1.16,
    amongRoots: { atWall: 0.045, out: 1.03, along: 1.25 },
    tallest: 0.32,
    mostEven: 80,
    mostBoxes: 6000,
    atSurface: 0.15,
    sectors: 4,
    timeError: 0.035,
    newtonError: 0.2,
    wetEnd: -0.2,
  },
  reference: {
    atWall: 0.018,
    leaning: 0.7,
    thickest: 1,
    out: 1.06,
    down: 1.06,
    along: 1.06,
    amongRoots: { atWall: 0.018, out: 1.04, along: 1.06 },
    tallest: 0.12,
    mostEven: 200,
    mostBoxes: 30000,
    atSurface: 0.06,
    sectors: 8,
    timeError: 0.005,
    newtonError: 0.1,
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

/** The soil about a pot, as far as its grid goes by it; cm. */
export interface SoilBlock {
  radius: number;
  depth: number;
  /** Depth at which one soil ends and another begins; absent where the soil is even. */
  layerDepth?: number;
  /** Whether water crosses the surface, so that rows must be low there. */
  isOpen?: boolean;
  /** Whether roots grow in it. */
  isRooted?: boolean;
  /** Other pots all about; absent where the block is a circle. */
  neighbours?: Neighbours;
}

/** How much coarser a grid with too many boxes is tried next. */
const COARSER = 1.1;

/**
 * Edges of the tensor grid for a pot in its block of soil: finest at the corner of side and base, from where the cells grow
 * away from the wall and, faster, along it. The pot's size is the geometric mean of its largest radius and its depth in
 * the soil. Between pots that stand close a whole column fits at least, to which cut ones can belong.
 */
export function gridLines(pot: Pot, block: SoilBlock, fineness: Fineness): Lines {
  return linesWithin(pot, block, block.isRooted ? { ...fineness, ...fineness.amongRoots } : fineness);
}

interface Lines {
  rEdges: Float64Array;
  dEdges: Float64Array;
}

function linesWithin(pot: Pot, block: SoilBlock, fineness: Fineness): Lines {
  const lines = linesBy(pot, block, fineness);
  const isWithin = (lines.rEdges.length - 1) * (lines.dEdges.length - 1) <= fineness.mostBoxes;
  return isWithin ? lines : linesWithin(pot, block, coarser(fineness));
}

/** Cells at the wall keep their size, on which the water given hangs most: those away from it grow faster, even ones are fewer. */
function coarser({ out, down, along, tallest, mostEven, ...same }: Fineness): Fineness {
  const growth = { out: out ** COARSER, down: down ** COARSER, along: along ** COARSER };
  return { ...same, ...growth, tallest: tallest * COARSER, mostEven: mostEven / COARSER };
}

function linesBy(pot: Pot, block: SoilBlock, fineness: Fineness): Lines {
  const { atWall, leaning, thickest, out, down, along, tallest, mostEven, atSurface } = fineness;
  const side = sideInSoil(pot.outline);
  const radii = side.flatMap(([from, to]) => [from.r, to.r]);
  const [narrowest, widest] = [Math.min(...radii), Math.max(...radii)];
  const base = last(pot.outline).d;
  const top = Math.max(first(pot.outline).d, 0);
  const size = Math.sqrt(widest * (base - top));
  const gap = block.neighbours ? block.neighbours.spacing / 2 - widest : block.radius;
  const fine = Math.min(atWall * size, gap);
  const run = (from: number, to: number, finest: "from" | "to", ratio: number, largest = block.depth) =>
    gradedEdges(from, to, finest, fine, ratio, Math.max(largest, (to - from) / mostEven));
  const width = Math.max(leaning * fine, (widest - narrowest) / mostEven);
  const across = widest - narrowest > fine / 2 ? [gradedEdges(narrowest, widest, "to", width, 1, width)] : [];
  const sunk = top > fine / 2 ? top : 0;
  const rows = joinEdges(
    run(0, sunk, "to", along),
    run(sunk, base, "to", along, tallestBeside(side, thickest * fine)),
    run(base, block.depth, "from", down, tallest * size),
  );
  const fixed = [sunk, base, ...side.map(([, to]) => to.d)];
  const fromSurface = block.isOpen ? lowAtSurface(rows, atSurface) : rows;
  const parted = partedAtBellies(fromSurface, side, width, fixed);
  return {
    rEdges: joinEdges(run(0, narrowest, "to", along), ...across, run(widest, block.radius, "from", out)),
    dEdges: block.layerDepth === undefined ? parted : withEdge(parted, block.layerDepth, fixed),
  };
}

/** An edge at each belly or brim that stands out of one row by more than a column: soil above it and below is not one. */
function partedAtBellies(rows: Float64Array, side: readonly Chord[], width: number, fixed: number[]): Float64Array {
  return sort(side.flat(), ({ r }) => -r).reduce((edges, { r, d }) => {
    const below = edges.findIndex((edge) => edge >= d);
    const [upper, lower] = [edges[below - 1] ?? d, edges[below] ?? d];
    const base = Math.max(narrowestBetween(side, upper, d), narrowestBetween(side, d, lower));
    return r - base > width ? withEdge(edges, d, fixed) : edges;
  }, rows);
}

/** Growth of the rows below an open surface: what holds evaporation back is the first one, and a slower growth only costs cells. */
const FROM_SURFACE = 2;

/** Rows that grow from the surface down, as far as they are lower than those there. */
function lowAtSurface(edges: Float64Array, lowest: number): Float64Array {
  const isLow = ([edge, next]: [number, number]) => lowest + (FROM_SURFACE - 1) * edge < next - edge;
  const joint = 1 + pairs(edges.subarray(1)).findIndex((row) => !isLow(row));
  return joinEdges(gradedEdges(0, entry(edges, joint), "from", lowest, FROM_SURFACE, Number.POSITIVE_INFINITY), [
    ...edges.slice(joint),
  ]);
}

/** Share of a row within which an edge is moved and no new one set. */
const NEAR = 0.4;

/** An edge at a depth: the nearest one moved there, unless it is far off or one of `fixed`. */
function withEdge(edges: Float64Array, depth: number, fixed: number[]): Float64Array {
  const below = edges.findIndex((edge) => edge > depth);
  if (below < 1) return edges;
  const above = entry(edges, below - 1);
  const row = entry(edges, below) - above;
  const isMovable = (j: number) => {
    const edge = entry(edges, j);
    return j > 0 && j < edges.length - 1 && !fixed.includes(edge) && Math.abs(edge - depth) < NEAR * row;
  };
  const moved = [below - 1, below].find(isMovable);
  if (moved !== undefined) return edges.with(moved, depth);
  if (Math.abs(above - depth) < 1e-6 * row) return edges;
  return Float64Array.from([...edges.slice(0, below), depth, ...edges.slice(below)]);
}

type Chord = [OutlinePoint, OutlinePoint];

/** The pot's side from the soil surface, or from the rim of a pot sunk below it, to the base; level stretches left out. */
function sideInSoil(outline: readonly OutlinePoint[]): Chord[] {
  const chords = pairs(outline).filter(([from, to]) => to.d > Math.max(from.d, 0));
  return chords.map(([from, to]) => [from.d < 0 ? { r: radiusOn([from, to], 0), d: 0 } : from, to]);
}

function radiusOn([from, to]: Chord, d: number): number {
  return from.r + ((to.r - from.r) * (d - from.d)) / (to.d - from.d);
}

/** Infinite where the side does not lie between two depths. */
function narrowestBetween(side: readonly Chord[], from: number, to: number): number {
  const within = side.filter(([upper, lower]) => upper.d < to && lower.d > from);
  const radii = within.flatMap((chord) => [
    radiusOn(chord, Math.max(from, chord[0].d)),
    radiusOn(chord, Math.min(to, chord[1].d)),
  ]);
  return Math.min(...radii);
}

/** Rows that a leaning wall crosses are low enough for its cells to be, on average, no thicker than `thickest`, cm. */
function tallestBeside(side: readonly Chord[], thickest: number): number {
  const across = sum(side, ([from, to]) => Math.abs(to.r - from.r));
  const along = sum(side, ([from, to]) => Math.hypot(to.r - from.r, to.d - from.d));
  return across > 0 ? (thickest * along) / across : Number.POSITIVE_INFINITY;
}
