/** Where a line along x runs through a bed, or through the part of it that lies some way inside its edge. */
import { ascending, pairs } from "d3-array";
import { type BedOutline, bedSides, centreOf, distanceBetween, type Place } from "./outline.ts";

/** Along the line, cm. */
export type Stretch = readonly [from: number, to: number];

/**
 * Cuts the part of a bed that lies at least `inset` cm inside its edge with the line at any `y`: its stretches in order
 * and apart from each other, exact. A negative inset is a bed that much larger.
 */
export function chordsOf(outline: BedOutline, inset = 0): (y: number) => Stretch[] {
  if (outline.shape === "circle") return (y) => discChord(centreOf(outline), outline.diameter / 2 - inset, y);
  const reach = Math.abs(inset);
  const sides = bedSides(outline).map(([a, b]) => sideOf(a, b, reach));
  return (y) => {
    const near = sides.filter(({ a, b }) => y >= Math.min(a.y, b.y) - reach && y <= Math.max(a.y, b.y) + reach);
    const inside = insideChords(near, y);
    if (inset === 0) return inside;
    const alongEdge = near.flatMap((side) => chordAlong(side, reach, y));
    return inset > 0 ? without(inside, joined(alongEdge)) : joined([...inside, ...alongEdge]);
  };
}

function insideChords(sides: readonly Side[], y: number): Stretch[] {
  const ends = sides.filter(({ a, b }) => a.y > y !== b.y > y).map(({ a, b }) => crossing(a, b, y));
  return pairedUp(ends.sort(ascending));
}

/** The stretch of the line at `y` that lies within a disc; none or one. */
export function discChord({ x, y: middle }: Place, radius: number, y: number): Stretch[] {
  const square = radius ** 2 - (y - middle) ** 2;
  if (radius < 0 || square < 0) return [];
  return [[x - Math.sqrt(square), x + Math.sqrt(square)]];
}

/** Stretches that touch or overlap as one, in order. */
export function joined(stretches: readonly Stretch[]): Stretch[] {
  const all: [number, number][] = [];
  for (const [from, to] of stretches.toSorted(([a], [b]) => a - b)) {
    const last = all.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else all.push([from, to]);
  }
  return all;
}

/** What two lists of stretches, each in order and apart, have in common. */
export function shared(some: readonly Stretch[], others: readonly Stretch[]): Stretch[] {
  return some.flatMap(([from, to]) =>
    others.filter(([a, b]) => b >= from && a <= to).map(([a, b]): Stretch => [Math.max(a, from), Math.min(b, to)]),
  );
}

export const lengthOf = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, [from, to]) => sum + to - from, 0);

/** Both in order and apart. */
function without(stretches: readonly Stretch[], taken: readonly Stretch[]): Stretch[] {
  const left: Stretch[] = [];
  for (const [from, to] of stretches) {
    let start = from;
    for (const [a, b] of taken) {
      if (b < start || a > to) continue;
      if (a > start) left.push([start, a]);
      start = b;
    }
    if (start < to) left.push([start, to]);
  }
  return left;
}

const pairedUp = (ends: readonly number[]) => pairs(ends).filter((_, i) => i % 2 === 0);

/** A side, and the two long edges of the strip of places within reach of it. */
interface Side {
  a: Place;
  b: Place;
  strip: [Place, Place][];
}

function sideOf(a: Place, b: Place, reach: number): Side {
  const share = reach / distanceBetween(a, b);
  const [nx, ny] = [(a.y - b.y) * share, (b.x - a.x) * share];
  const moved = ({ x, y }: Place, way: number) => ({ x: x + way * nx, y: y + way * ny });
  return { a, b, strip: [1, -1].map((way) => [moved(a, way), moved(b, way)]) };
}

/** Of the places within reach of a side: of the strip and of the discs about its ends, which together are convex. */
function chordAlong({ a, b, strip }: Side, reach: number, y: number): Stretch[] {
  const ends = [...discChord(a, reach, y), ...discChord(b, reach, y)].flat();
  for (const [from, to] of strip) if (from.y > y !== to.y > y) ends.push(crossing(from, to, y));
  return ends.length > 0 ? [[Math.min(...ends), Math.max(...ends)]] : [];
}

const crossing = (a: Place, b: Place, y: number) => a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x);
