/** Pots on an even grid in a bed: as many as the grid gives. */
import { ascending, range } from "d3-array";
import { first } from "../input/lists.ts";
import { chordsOf, type Stretch } from "./chords.ts";
import { type BedOutline, bedArea, bedBounds, bedCorners, edgeLength, type Place } from "./outline.ts";
import { ROUNDING } from "./placeTroubles.ts";
import { groundPerPot, type PotGrid } from "./potGrid.ts";
import { pivotOf, turnedOutline, turnedPlace } from "./turning.ts";

/** cm; `rowAngle` in degrees from x towards y. */
export interface Layout {
  grid: PotGrid;
  spacing: number;
  rowAngle: number;
  /** Least distance from the middle of a pot to the bed's edge. */
  edgeDistance: number;
}

/** Shifts of the rows that are tried, besides those that put a row where the bed begins or ends: more in a bed of few rows. */
const TRIED_SHIFTS = { rowsInAll: 2000, least: 24, most: 200 };

/**
 * The middles of the pots, cm, row by row: the shift of the grid that holds most pots, and in its midst, so that what room is
 * left over lies evenly about them. Along the rows the best shift is exact; across them a rare one between those tried,
 * which holds another pot, may be missed. Turning bed and grid together turns the places and changes nothing else.
 */
export function layOutPots(outline: BedOutline, layout: Layout): Place[] {
  const turned = turnedOutline(outline, -layout.rowAngle);
  const { y0, y1 } = bedBounds(turned);
  const chordsAt = chordsOf(turned, layout.edgeDistance - ROUNDING);
  const rowsAt = (shift: number) =>
    rowsBetween(y0, y1, layout, shift).map((row) => ({ ...row, stretches: chordsAt(row.y) }));
  const shift = bestAcross(turned, layout, (shift) => bestAlong(rowsAt(shift), layout.spacing).count);
  const rows = rowsAt(shift);
  const { along } = bestAlong(rows, layout.spacing);
  const places = rows.flatMap((row) => placesIn(row, along, layout.spacing));
  return places.map((place) => turnedPlace(place, layout.rowAngle, pivotOf(outline)));
}

/**
 * More pots than this cannot stand in a bed, `spacing` apart and with their middles `edgeDistance` inside its edge, on
 * whatever grid or none. Of the ground nearer to one pot than to any other, what lies within spacing/√3 of it has at
 * least the area of the regular hexagon of the densest packing (share π/√12 of the plane: Thue 1910, Fejes Tóth 1940,
 * from memory); these grounds do not overlap and lie within the bed grown by spacing/√3 less the edge distance, whose
 * area is at most that of a convex bed of the same area and edge (Sz.-Nagy 1959, from memory).
 */
export function densestCount(outline: BedOutline, spacing: number, edgeDistance = 0): number {
  const grown = Math.max(spacing / Math.sqrt(3) - edgeDistance, 0);
  const area = bedArea(outline) + edgeLength(outline) * grown + Math.PI * grown ** 2;
  return Math.floor(area / groundPerPot("triangular", spacing));
}

/** A row of the grid that crosses the bed. */
interface Row {
  y: number;
  /** How far its pots are shifted along it. */
  offset: number;
  /** Where its pots may stand. */
  stretches: Stretch[];
}

function rowsBetween(y0: number, y1: number, { grid, spacing }: Layout, shift: number): Omit<Row, "stretches">[] {
  const apart = rowsApart(grid, spacing);
  return range(Math.ceil((y0 - shift) / apart), Math.floor((y1 - shift) / apart) + 1).map((i) => ({
    y: shift + i * apart,
    offset: grid === "triangular" && i % 2 !== 0 ? spacing / 2 : 0,
  }));
}

const rowsApart = (grid: PotGrid, spacing: number) => groundPerPot(grid, spacing) / spacing;

function placesIn({ y, offset, stretches }: Row, along: number, spacing: number): Place[] {
  const start = offset + along;
  return stretches.flatMap(([from, to]) =>
    range(Math.ceil((from - start) / spacing), Math.floor((to - start) / spacing) + 1).map((k) => ({
      x: start + k * spacing,
      y,
    })),
  );
}

/** The shift along the rows that holds most pots, amid the widest range of such shifts. */
function bestAlong(rows: readonly Row[], spacing: number): { count: number; along: number } {
  const { enter, leave, atZero } = changesAlong(rows, spacing);
  let best = { count: 0, from: 0, to: 0 };
  let [count, from, i] = [atZero, 0, 0];
  for (const to of leave) {
    for (let next = enter[i]; next !== undefined && next <= to; next = enter[++i], count++) from = next;
    if (count > best.count || (count === best.count && to - from > best.to - best.from + ROUNDING))
      best = { count, from, to };
    count--;
    from = to;
  }
  return { count: best.count, along: (best.from + best.to) / 2 };
}

/** Pots held at no shift, and the shifts over two whole spacings at which one more comes in or has to leave, in order. */
function changesAlong(rows: readonly Row[], spacing: number) {
  const stretches = rows.flatMap(({ offset, stretches }) =>
    stretches.map(([a, b]) => [a - offset, b - offset] as const),
  );
  const first = ([a]: Stretch) => Math.ceil(a / spacing);
  const last = ([, b]: Stretch) => Math.floor(b / spacing);
  const enter = Float64Array.from(stretches, (each) => each[0] - (first(each) - 1) * spacing).sort();
  const leave = Float64Array.from(stretches, (each) => each[1] - last(each) * spacing).sort();
  const twice = (shifts: Float64Array) => [...shifts, ...shifts.map((shift) => shift + spacing)];
  const atZero = stretches.reduce((sum, each) => sum + last(each) - first(each) + 1, 0);
  return { enter: twice(enter), leave: twice(leave), atZero };
}

interface Tried {
  shift: number;
  count: number;
}

/** The shift across the rows that holds most pots, amid the widest range of such shifts. */
function bestAcross(outline: BedOutline, layout: Layout, countAt: (shift: number) => number): number {
  const apart = rowsApart(layout.grid, layout.spacing);
  const once = shiftsToTry(outline, layout.edgeDistance, apart).map((shift) => ({ shift, count: countAt(shift) }));
  const most = Math.max(...once.map(({ count }) => count));
  const isBest = ({ count }: Tried) => count === most;
  const run = widestRun([...once, ...once.map(({ shift, count }) => ({ shift: shift + apart, count }))], isBest);
  const middle = (run.from + run.to) / 2;
  return countAt(middle) === most ? middle : first(once.filter(isBest)).shift;
}

/** The grid is the same again after a whole distance between rows, in triangles with its rows shifted. */
function shiftsToTry(outline: BedOutline, edgeDistance: number, apart: number): number[] {
  const { y0, y1 } = bedBounds(outline);
  const middle = (y0 + y1) / 2;
  const corners = outline.shape === "circle" ? [y0, y1] : bedCorners(outline).map(({ y }) => y);
  const atEdge = corners.flatMap((y) => [y - edgeDistance, y + edgeDistance]);
  const { rowsInAll, least, most } = TRIED_SHIFTS;
  const half = Math.round(Math.min(Math.max(least, (rowsInAll * apart) / (y1 - y0)), most) / 2);
  const steps = range(-half, half).map((i) => middle + (i * apart) / (2 * half));
  const nearMiddle = (y: number) => y - Math.round((y - middle) / apart) * apart;
  return [...steps, ...atEdge.map(nearMiddle)].sort(ascending);
}

function widestRun(tried: readonly Tried[], isBest: (tried: Tried) => boolean): { from: number; to: number } {
  let widest = { from: 0, to: Number.NEGATIVE_INFINITY };
  let from: number | undefined;
  for (const each of tried) {
    from = isBest(each) ? (from ?? each.shift) : undefined;
    if (from !== undefined && each.shift - from > widest.to - widest.from + ROUNDING) widest = { from, to: each.shift };
  }
  return widest;
}
