/** Marking out with two strings: from two pegs at the bed's edge to each pot. */
import { greatest, min, range } from "d3-array";
import { present } from "../input/lists.ts";
import { type BedOutline, bedCorners, centreOf, distanceBetween, type Place } from "./outline.ts";

/** cm from peg A and from peg B; `side` 1 where the place lies on the left of the way from A to B, x to the right, y up. */
export interface StringLine {
  a: number;
  b: number;
  side: 1 | -1;
}

export type Pegs = [Place, Place];

/** Directions of a diameter that are tried for the pegs of a round bed. */
const TRIED_DIRECTIONS = 36;

/**
 * Two corners of the bed, or the ends of a diameter, from which the strings to all places cross well: of all pairs the
 * one whose worst crossing is nearest to a right angle. Pairs with all places on one side of them come first, for no one
 * can then take the wrong side.
 */
export function pegsOf(outline: BedOutline, places: readonly Place[]): Pegs {
  const all = pairsOfPegs(outline);
  const oneSided = all.filter((pegs) => new Set(stringLines(pegs, places).map(({ side }) => side)).size < 2);
  const candidates = oneSided.length > 0 ? oneSided : all;
  const best = greatest(candidates, (pegs) => min(places, (place) => crossingSine(pegs, place)) ?? 0);
  return present(best, "pair of corners for the strings");
}

/** From every corner to each later one; a round bed's diameters. */
function pairsOfPegs(outline: BedOutline): Pegs[] {
  if (outline.shape !== "circle") {
    const corners = bedCorners(outline);
    return corners.flatMap((a, i) => corners.slice(i + 1).map((b): Pegs => [a, b]));
  }
  const { x, y } = centreOf(outline);
  return range(TRIED_DIRECTIONS).map((i) => {
    const angle = (Math.PI * i) / TRIED_DIRECTIONS;
    const [dx, dy] = [x * Math.cos(angle), y * Math.sin(angle)];
    return [
      { x: x - dx, y: y - dy },
      { x: x + dx, y: y + dy },
    ];
  });
}

/** Sine of the angle at which the two strings meet: 1 where they cross squarely, 0 where they run along each other. */
function crossingSine([a, b]: Pegs, place: Place): number {
  const lengths = distanceBetween(a, place) * distanceBetween(b, place);
  return lengths === 0 ? 0 : Math.abs(acrossOf(a, b, place)) / lengths;
}

/** Twice the area of the triangle of three places; positive where it runs from x to y. */
const acrossOf = (a: Place, b: Place, place: Place) => (b.x - a.x) * (place.y - a.y) - (b.y - a.y) * (place.x - a.x);

/** By place: the lengths of the strings from both pegs, cm, and on which side of the line between them the place lies. */
export function stringLines([a, b]: Pegs, places: readonly Place[]): StringLine[] {
  return places.map((place) => ({
    a: distanceBetween(a, place),
    b: distanceBetween(b, place),
    side: acrossOf(a, b, place) >= 0 ? 1 : -1,
  }));
}

/** Where two strings (lengths in cm) meet; on the line between the pegs where they are too short to. */
export function placeOfStrings([a, b]: Pegs, line: StringLine): Place {
  const apart = distanceBetween(a, b);
  const along = (apart ** 2 + line.a ** 2 - line.b ** 2) / (2 * apart);
  const across = line.side * Math.sqrt(Math.max(line.a ** 2 - along ** 2, 0));
  const [ux, uy] = [(b.x - a.x) / apart, (b.y - a.y) / apart];
  return { x: a.x + along * ux - across * uy, y: a.y + along * uy + across * ux };
}

/** How far from its place, cm, a pot comes to stand when both its strings are measured off in whole steps of so many cm. */
export function stringError(pegs: Pegs, place: Place, step: number): number {
  const [{ a, b, side }] = stringLines(pegs, [place]) as [StringLine];
  const whole = (length: number) => Math.round(length / step) * step;
  return distanceBetween(place, placeOfStrings(pegs, { a: whole(a), b: whole(b), side }));
}
