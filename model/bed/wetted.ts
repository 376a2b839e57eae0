/** How much of a bed the pots wet. */
import { bisectLeft, bisectRight, range } from "d3-array";
import { chordsOf, discChord, joined, lengthOf, shared } from "./chords.ts";
import { type BedOutline, bedBounds, type Place } from "./outline.ts";

/** Lines across the bed on which the share is counted. */
const LINES = 2000;

/**
 * Share of the bed's area that lies within `radius` cm of a pot, 0 to 1. The lengths on each of 2000 lines are exact; what
 * lies between the lines is taken as alike, which is within 0.0002 of the share for wetted circles wider than a fiftieth
 * of the bed.
 */
export function wettedShare(outline: BedOutline, places: readonly Place[], radius: number): number {
  const { y0, y1 } = bedBounds(outline);
  const bedAt = chordsOf(outline);
  const byY = places.toSorted((a, b) => a.y - b.y);
  const ys = byY.map(({ y }) => y);
  let [bed, wet] = [0, 0];
  for (const i of range(LINES)) {
    const y = y0 + ((i + 0.5) / LINES) * (y1 - y0);
    const chords = bedAt(y);
    bed += lengthOf(chords);
    const near = byY.slice(bisectLeft(ys, y - radius), bisectRight(ys, y + radius));
    wet += lengthOf(shared(chords, joined(near.flatMap((place) => discChord(place, radius, y)))));
  }
  return wet / bed;
}
