import { pairs, sort } from "d3-array";
import { entry, first, last } from "../input/lists.ts";
import type { OutlinePoint } from "./pot.ts";

/** A straight stretch of the outer side: radius r + slope (d − from) for depths d between `from` and `to`. */
interface Side {
  from: number;
  to: number;
  r: number;
  slope: number;
}

/** Bends closer in depth than this, cm, are one bend. */
const SAME_DEPTH = 1e-9;

/** Greatest bulge of the inside, cm, that one chord may cut off. */
const CHORD_BULGE = 1e-3;

/**
 * Inner surface of a pot, (r, d) in cm, from the rim down to the inner base: the points that lie `wallThickness` inside
 * the nearest point of the outline. Straight walls give straight inner walls, exactly. Where the outline widens at a
 * corner the inside is an arc, given by chords; so it is below the rim of a pot that widens from there, whose lip is as
 * thick as the wall however flat the shoulder. Depths increase strictly; the last radius is 0 only where the inside ends
 * in a point.
 */
export function innerSurface(outline: readonly OutlinePoint[], wallThickness: number): OutlinePoint[] {
  const sides = sidesOf(outline);
  const [rim, base] = [first(outline).d, last(outline).d - wallThickness];
  const inside = sort(bends(sides, wallThickness)).filter(
    (d, i, all) =>
      d > rim + SAME_DEPTH && d < base - SAME_DEPTH && !(d - (all[i - 1] ?? Number.NEGATIVE_INFINITY) < SAME_DEPTH),
  );
  const pointAt = (d: number) => ({ r: innerRadius(sides, d, wallThickness), d });
  const points = [rim, ...inside, base].map(pointAt);
  return endAtAxis([first(points), ...pairs(points).flatMap(([a, b]) => chordsTo(a, b, pointAt))]);
}

/** Points after `a` up to `b`, halfway ones wherever a chord would miss more than `CHORD_BULGE`. */
function chordsTo(a: OutlinePoint, b: OutlinePoint, pointAt: (d: number) => OutlinePoint): OutlinePoint[] {
  const halfway = pointAt((a.d + b.d) / 2);
  const isBulging = Math.abs(halfway.r - (a.r + b.r) / 2) > CHORD_BULGE;
  if (!isBulging || b.d - a.d <= SAME_DEPTH) return [b];
  return [...chordsTo(a, halfway, pointAt), ...chordsTo(halfway, b, pointAt)];
}

function sidesOf(points: readonly OutlinePoint[]): Side[] {
  return pairs(points)
    .filter(([a, b]) => b.d > a.d)
    .map(([a, b]) => ({ from: a.d, to: b.d, r: a.r, slope: (b.r - a.r) / (b.d - a.d) }));
}

/**
 * Largest radius at depth d that keeps the distance w from every side: with R(x) the outer radius,
 * min over |s| ≤ w of R(d + s) − √(w² − s²), which for a straight side of slope m lies at s = −w m / √(1 + m²).
 */
function innerRadius(sides: Side[], d: number, w: number): number {
  const near = sides.filter(({ from, to }) => from - d <= w && to - d >= -w);
  const radii = near.map((side) => {
    const s = Math.min(Math.max(nearestOffset(side.slope, w), side.from - d), side.to - d);
    return side.r + side.slope * (d + s - side.from) - Math.sqrt(Math.max(w * w - s * s, 0));
  });
  return Math.min(...radii);
}

/** How much deeper than a point of the inside its nearest point on a side of slope m lies. */
function nearestOffset(m: number, w: number): number {
  return (-w * m) / Math.hypot(1, m);
}

/**
 * Depths at which the inside bends: both ends of the arc at a corner that widens, else the crossing of the two sides
 * moved inward, of slopes a and b: w (a + b) / (√(1 + a²) + √(1 + b²)) below their corner.
 */
function bends(sides: Side[], w: number): number[] {
  return pairs(sides).flatMap(([{ slope: a }, { from: d, slope: b }]) => {
    const crossing = d + (w * (a + b)) / (Math.hypot(1, a) + Math.hypot(1, b));
    return b > a ? [d - nearestOffset(a, w), d - nearestOffset(b, w)] : [crossing];
  });
}

function endAtAxis(points: OutlinePoint[]): OutlinePoint[] {
  const beyond = points.findIndex(({ r }) => r <= 0);
  if (beyond < 1) return points;
  const [a, b] = [entry(points, beyond - 1), entry(points, beyond)];
  return [...points.slice(0, beyond), { r: 0, d: a.d + ((b.d - a.d) * a.r) / (a.r - b.r) }];
}
