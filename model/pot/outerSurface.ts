import { pairs, sum } from "d3-array";
import type { OutlinePoint } from "./pot.ts";

/** A straight stretch of the outline, upper point first: a ring of wall. */
export type Stretch = [OutlinePoint, OutlinePoint];

/** The stretches of the outline that are deeper than `from` and no deeper than `to`; a level base goes with its depth. */
export function stretchesBetween(outline: readonly OutlinePoint[], from: number, to: number): Stretch[] {
  return pairs(outline)
    .filter(([a, b]) => (a.d === b.d ? a.d > from && a.d <= to : b.d > from && a.d < to))
    .map(([a, b]) => (a.d === b.d ? [a, b] : [pointAt(a, b, Math.max(a.d, from)), pointAt(a, b, Math.min(b.d, to))]));
}

function pointAt(a: OutlinePoint, b: OutlinePoint, d: number): OutlinePoint {
  if (d === b.d) return b;
  return { r: a.r + ((b.r - a.r) * (d - a.d)) / (b.d - a.d), d };
}

/** Area of the outer wall deeper than `from` and no deeper than `to`, cm², the base included when `to` reaches it. */
export function wallAreaBetween(outline: readonly OutlinePoint[], from: number, to: number): number {
  return sum(stretchesBetween(outline, from, to), ([a, b]) => Math.PI * (a.r + b.r) * lengthOf(a, b));
}

export function lengthOf(a: OutlinePoint, b: OutlinePoint): number {
  return Math.hypot(b.r - a.r, b.d - a.d);
}

/** Least distance from the axis at a depth to the outline. A wall as thick leaves no room for water there. */
export function roomOnAxis(outline: readonly OutlinePoint[], d: number): number {
  return Math.min(
    ...pairs(outline, (a, b) => {
      const along = ((d - a.d) * (b.d - a.d) - a.r * (b.r - a.r)) / (lengthOf(a, b) ** 2 || 1);
      const share = Math.min(Math.max(along, 0), 1);
      return Math.hypot(a.r + share * (b.r - a.r), a.d + share * (b.d - a.d) - d);
    }),
  );
}
