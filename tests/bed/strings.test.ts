import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { distanceBetween } from "../../model/bed/outline.ts";
import { type Pegs, pegsOf, placeOfStrings, stringError, stringLines } from "../../model/bed/strings.ts";
import { expectClose } from "../support/close.ts";

const pegs: Pegs = [
  { x: 0, y: 0 },
  { x: 500, y: 0 },
];

describe("strings from two pegs", () => {
  it("have the lengths that Pythagoras gives, and a side", () => {
    const [near, far] = stringLines(pegs, [
      { x: 180, y: 240 },
      { x: 320, y: -240 },
    ]);
    expect(near).toEqual({ a: 300, b: 400, side: 1 });
    expect(far).toEqual({ a: 400, b: 300, side: -1 });
  });

  it("meet at the place, and on the line between the pegs where they are too short", () => {
    const place = placeOfStrings(pegs, { a: 300, b: 400, side: 1 });
    expectClose(place.x, 180, { tolerance: 1e-9, unit: "cm", what: "x" });
    expectClose(place.y, 240, { tolerance: 1e-9, unit: "cm", what: "y" });
    expect(placeOfStrings(pegs, { a: 200, b: 299.9, side: 1 }).y).toBe(0);
  });

  // Strings of 300.4 and 400.4 cm, in whole cm 300 and 400, meet at (180, 240).
  it("measured in whole steps miss the place by so much", () => {
    const place = placeOfStrings(pegs, { a: 300.4, b: 400.4, side: 1 });
    expectClose(stringError(pegs, place, 1), distanceBetween(place, { x: 180, y: 240 }), {
      tolerance: 1e-9,
      unit: "cm",
      what: "missed by",
    });
    expect(stringError(pegs, { x: 180, y: 240 }, 1)).toBeLessThan(1e-9);
  });

  it("start at the side of a bed from which they cross best, with all pots on one side of it", () => {
    const pots = range(7).flatMap((i) => [27.5, 92.5].map((y) => ({ x: 45 + 65 * i, y })));
    const [a, b] = pegsOf({ shape: "rectangle", length: 480, width: 120 }, pots);
    expect([a, b].every(({ x, y }) => (x === 0 || x === 480) && (y === 0 || y === 120))).toBe(true);
    expect(new Set(stringLines([a, b], pots).map(({ side }) => side)).size).toBe(1);
    // From two corners of a square, its middle is seen squarely.
    const square = { shape: "rectangle", length: 100, width: 100 } as const;
    const [c, d] = pegsOf(square, [{ x: 50, y: 50 }]);
    expect(distanceBetween(c, d)).toBe(100);
  });

  it("start at a side even where a diagonal would cross better, with pots on both sides of it", () => {
    const pots = [
      { x: 90, y: 10 },
      { x: 10, y: 90 },
    ];
    const pegs = pegsOf({ shape: "rectangle", length: 100, width: 100 }, pots);
    expect(new Set(stringLines(pegs, pots).map(({ side }) => side)).size).toBe(1);
  });

  it("of a round bed start at the ends of a diameter that keeps clear of the pots", () => {
    const pots = [100, 150, 200].map((x) => ({ x, y: 150 }));
    const [a, b] = pegsOf({ shape: "circle", diameter: 300 }, pots);
    expectClose(distanceBetween(a, b), 300, { tolerance: 1e-9, unit: "cm", what: "between the pegs" });
    for (const pot of pots.filter(({ x }) => x !== 150)) expect(stringError([a, b], pot, 0.1)).toBeLessThan(0.2);
  });
});
