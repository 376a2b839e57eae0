/** How much of a bed the pots wet. */
import { bisectLeft, bisectRight, range } from "d3-array";
import { chordsOf, discChord, joined, lengthOf, shared } from "./chords.ts";
import { type BedOutline, bedBounds, type Place } from "./outline.ts";

/** Lines across the bed, and across each wetted circle, on which the share is counted: at least so many, and no more in all. */
const LEAST_LINES = 2000;
const LINES_PER_CIRCLE = 120;
const MOST_LINES = 24_000;

/**
 * Share of the bed's area that lies within `radius` cm of a pot, 0 to 1. The lengths on each line are exact; what lies
 * between two lines is taken as alike, which keeps the share within a thousandth of itself where a circle is wider than a
 * two-hundredth of the bed.
 */
export function wettedShare(outline: BedOutline, places: readonly Place[], radius: number): number {
  const { y0, y1 } = bedBounds(outline);
  const lines = Math.min(Math.max(LEAST_LINES, (LINES_PER_CIRCLE * (y1 - y0)) / (2 * radius)), MOST_LINES);
  const count = Math.ceil(lines);
  const bedAt = chordsOf(outline);
  const byY = places.toSorted((a, b) => a.y - b.y);
  const ys = byY.map(({ y }) => y);
  let [bed, wet] = [0, 0];
  for (const i of range(count)) {
    const y = y0 + ((i + 0.5) / count) * (y1 - y0);
    const chords = bedAt(y);
    bed += lengthOf(chords);
    const near = byY.slice(bisectLeft(ys, y - radius), bisectRight(ys, y + radius));
    wet += lengthOf(shared(chords, joined(near.flatMap((place) => discChord(place, radius, y)))));
  }
  return wet / bed;
}
