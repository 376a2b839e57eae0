import { range } from "d3-array";
import fc from "fast-check";
import type { BedOutline, Place } from "../../model/bed/outline.ts";
import { turnedPlace } from "../../model/bed/turning.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Corners about a middle, each at its own distance and in order of angle: simple, and seldom convex. */
export const starBed: fc.Arbitrary<BedOutline> = fc
  .record({
    radii: fc.array(number(60, 400), { minLength: 3, maxLength: 12 }),
    turn: number(0, 360),
    x: number(-300, 300),
    y: number(-300, 300),
  })
  .map(({ radii, turn, x, y }) => ({
    shape: "polygon",
    points: radii.map((radius, i) => turnedPlace({ x: x + radius, y }, turn + (360 * i) / radii.length, { x, y })),
  }));

/** Low and high steps in turn along a straight side: hooks, notches and combs, with corners that see little of the bed. */
export const combBed: fc.Arbitrary<BedOutline> = fc
  .record({
    teeth: fc.array(fc.tuple(number(40, 150), number(50, 160)), { minLength: 2, maxLength: 7 }),
    turn: number(0, 360),
    isMirrored: fc.boolean(),
  })
  .map(({ teeth, turn, isMirrored }) => {
    const ends = teeth.map((_, i) => teeth.slice(0, i + 1).reduce((sum, [width]) => sum + width, 0));
    const top = teeth.flatMap(([width, height], i): Place[] => [
      { x: ends[i]! - width, y: height + (i % 2) * 120 },
      { x: ends[i]!, y: height + (i % 2) * 120 },
    ]);
    const points = [{ x: ends.at(-1)!, y: 0 }, { x: 0, y: 0 }, ...top];
    const turned = points.map((point) => turnedPlace(point, turn, { x: 0, y: 0 }));
    return { shape: "polygon", points: isMirrored ? turned.toReversed() : turned };
  });

export const plainBed: fc.Arbitrary<BedOutline> = fc.oneof(
  fc.record({ shape: fc.constant("rectangle" as const), length: number(40, 800), width: number(40, 400) }),
  fc.record({ shape: fc.constant("circle" as const), diameter: number(40, 600) }),
);

export const anyBed: fc.Arbitrary<BedOutline> = fc.oneof(starBed, combBed, plainBed);

/** Places spread evenly over a bed's bounds by a rule that repeats nowhere: additive recurrence of two roots of a cubic. */
export const evenPlaces = (count: number, x0: number, y0: number, x1: number, y1: number): Place[] =>
  range(count).map((i) => ({
    x: x0 + ((0.5 + 0.7548776662466927 * i) % 1) * (x1 - x0),
    y: y0 + ((0.5 + 0.5698402909980532 * i) % 1) * (y1 - y0),
  }));
