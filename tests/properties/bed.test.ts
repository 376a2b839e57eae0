import { min, pairs, range } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { chordsOf } from "../../model/bed/chords.ts";
import { densestCount, layOutPots } from "../../model/bed/layout.ts";
import { nearestAllowed } from "../../model/bed/nearestAllowed.ts";
import {
  type BedOutline,
  bedArea,
  bedBounds,
  distanceBetween,
  distanceInside,
  type Place,
} from "../../model/bed/outline.ts";
import { outlineTroubles } from "../../model/bed/outlineTroubles.ts";
import { placeTroubles } from "../../model/bed/placeTroubles.ts";
import { plantPlaces } from "../../model/bed/planting.ts";
import { POT_GRIDS } from "../../model/bed/potGrid.ts";
import { pegsOf, placeOfStrings, stringError, stringLines } from "../../model/bed/strings.ts";
import { turnedOutline } from "../../model/bed/turning.ts";
import { wettedShare } from "../../model/bed/wetted.ts";
import { anyBed, combBed, evenPlaces, starBed } from "../support/beds.ts";
import { numRuns, seed } from "../support/deep.ts";

const runs = { numRuns: numRuns(40, 400), seed };
/** cm. */
const ROUNDING = 2e-6;

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyLayout = fc
  .record({
    grid: fc.constantFrom(...POT_GRIDS),
    spacing: number(25, 120),
    edge: number(0, 1),
    rowAngle: number(-90, 90),
  })
  .map(({ edge, ...layout }) => ({ ...layout, edgeDistance: edge * layout.spacing }));

/** Pots laid out in a bed; only beds that hold some. */
const potsInBed = fc
  .tuple(anyBed, anyLayout)
  .map(([outline, layout]) => ({ outline, layout, pots: layOutPots(outline, layout) }))
  .filter(({ pots }) => pots.length > 0);

const nearestPair = (places: readonly Place[]) =>
  min(places.flatMap((place, i) => places.slice(i + 1).map((other) => distanceBetween(place, other)))) ??
  Number.POSITIVE_INFINITY;

function holds<T>(cases: fc.Arbitrary<T>, promise: (each: T) => void, changes: Partial<typeof runs> = {}) {
  fc.assert(fc.property(cases, promise), { ...runs, ...changes });
}

test("no pot stands outside the bed, nearer to its edge than the edge distance, or nearer to another than the spacing", () => {
  let [beds, pots] = [0, 0];
  holds(potsInBed, ({ outline, layout, pots: places }) => {
    for (const place of places)
      expect(distanceInside(outline, place)).toBeGreaterThanOrEqual(layout.edgeDistance - ROUNDING);
    expect(nearestPair(places)).toBeGreaterThanOrEqual(layout.spacing - ROUNDING);
    expect(placeTroubles(outline, places, layout)).toEqual([]);
    beds++;
    pots += places.length;
  });
  expect(pots / beds).toBeGreaterThan(5);
});

test("a bed never holds more pots than the densest packing's bound", () => {
  holds(potsInBed, ({ outline, layout, pots }) => {
    const { spacing, edgeDistance } = layout;
    expect(pots.length).toBeLessThanOrEqual(densestCount(outline, spacing, edgeDistance));
    expect(densestCount(outline, spacing, edgeDistance)).toBeLessThanOrEqual(densestCount(outline, spacing));
  });
});

test("a bed and its grid turned together hold the same number of pots", () => {
  holds(
    fc.tuple(anyBed, anyLayout, number(-180, 180)).filter(([{ shape }]) => shape !== "circle"),
    ([outline, layout, turn]) => {
      const turned = layOutPots(turnedOutline(outline, turn), { ...layout, rowAngle: layout.rowAngle + turn });
      expect(turned.length).toBe(layOutPots(outline, layout).length);
    },
  );
});

test("a grid turned by any angle in a round bed holds the same number", () => {
  holds(fc.tuple(number(40, 600), anyLayout, number(-90, 90)), ([diameter, layout, angle]) => {
    const bed = { shape: "circle", diameter } as const;
    const [here, turned] = [0, angle].map((turn) => layOutPots(bed, { ...layout, rowAngle: turn }).length);
    expect(turned).toBe(here);
  });
});

const upTo = (most: number, start: number, step: number) =>
  range(Math.floor((most - start) / step) + 1).map((k) => start + k * step);

test("no shift of the grid that is tried at random holds more pots", () => {
  const manyShifts = fc.array(fc.tuple(number(0, 1), number(0, 1)), { minLength: 30, maxLength: 30 });
  holds(fc.tuple(potsInBed, manyShifts), ([{ outline, layout, pots }, shifts]) => {
    const turned = turnedOutline(outline, -layout.rowAngle);
    const { x0, y0, x1, y1 } = bedBounds(turned);
    const apart = layout.grid === "square" ? layout.spacing : (layout.spacing * Math.sqrt(3)) / 2;
    const isHeld = (x: number, y: number) => distanceInside(turned, { x, y }) >= layout.edgeDistance;
    for (const [u, v] of shifts) {
      const held = upTo(y1, y0 + v * apart, apart).flatMap((y, row) => {
        const offset = layout.grid === "triangular" && row % 2 === 1 ? layout.spacing / 2 : 0;
        const start = x0 - layout.spacing + offset + u * layout.spacing;
        return upTo(x1, start, layout.spacing).filter((x) => isHeld(x, y));
      });
      expect(held.length).toBeLessThanOrEqual(pots.length);
    }
  });
});

test("lines across a bed run through it just where places lie so far inside its edge", () => {
  holds(fc.tuple(anyBed, number(-30, 60), number(0, 1), number(0, 1)), ([outline, inset, u, v]) => {
    const { x0, y0, x1, y1 } = bedBounds(outline);
    const place = { x: x0 - 40 + u * (x1 - x0 + 80), y: y0 + v * (y1 - y0) };
    const inside = distanceInside(outline, place);
    if (Math.abs(inside - inset) < 1e-6) return;
    const chords = chordsOf(outline, inset)(place.y);
    expect(chords.some(([from, to]) => from <= place.x && place.x <= to)).toBe(inside > inset);
    for (const [a, b] of pairs(chords)) expect(a[1]).toBeLessThanOrEqual(b[0]);
  });
});

test("random beds of the tests are sound outlines", () => {
  holds(fc.oneof(starBed, combBed), (outline) => {
    if (outline.shape !== "polygon") return;
    expect(outlineTroubles(outline.points)).toEqual([]);
    expect(bedArea(outline)).toBeGreaterThan(0);
  });
});

test("two strings find every pot of a bed again within a millimetre", () => {
  holds(potsInBed, ({ outline, pots }) => {
    const pegs = pegsOf(outline, pots);
    stringLines(pegs, pots).forEach((line, i) => {
      expect(distanceBetween(placeOfStrings(pegs, line), pots[i]!)).toBeLessThan(0.1);
    });
  });
});

test("strings measured to the millimetre set a pot where their rounded lengths meet", () => {
  holds(potsInBed, ({ outline, pots }) => {
    const pegs = pegsOf(outline, pots);
    const millimetres = (length: number) => Math.round(10 * length) / 10;
    for (const pot of pots) {
      const [{ a, b, side }] = stringLines(pegs, [pot]) as [{ a: number; b: number; side: 1 | -1 }];
      const set = placeOfStrings(pegs, { a: millimetres(a), b: millimetres(b), side });
      expect(Math.abs(stringError(pegs, pot, 0.1) - distanceBetween(set, pot))).toBeLessThan(1e-6);
    }
  });
});

test("pegs lie on the bed's edge", () => {
  holds(potsInBed, ({ outline, pots }) => {
    for (const peg of pegsOf(outline, pots)) expect(Math.abs(distanceInside(outline, peg))).toBeLessThan(1e-6);
  });
});

test("the wetted share is that of places spread evenly over the bed", () => {
  holds(
    fc.tuple(potsInBed, number(10, 80)),
    ([{ outline, pots }, radius]) => {
      const { x0, y0, x1, y1 } = bedBounds(outline);
      const inside = evenPlaces(6000, x0, y0, x1, y1).filter((place) => distanceInside(outline, place) > 0);
      const wet = inside.filter((place) => pots.some((pot) => distanceBetween(pot, place) < radius));
      expect(Math.abs(wettedShare(outline, pots, radius) - wet.length / inside.length)).toBeLessThan(0.03);
    },
    { numRuns: numRuns(10, 80) },
  );
});

test("plants stand in the bed, in the band about the nearest pot and in none, and their spacing apart", () => {
  const anyPlanting = fc
    .record({ inner: number(0, 15), wide: number(0, 40), plantSpacing: number(8, 50), potRadius: number(5, 12) })
    .map(({ wide, ...rest }) => ({ ...rest, outer: rest.inner + wide }));
  let plants = 0;
  holds(fc.tuple(potsInBed, anyPlanting), ([{ outline, pots }, planting]) => {
    const few = pots.slice(0, 20);
    const planted = plantPlaces(outline, few, planting);
    for (const plant of planted) {
      const fromWall = min(few, (pot) => distanceBetween(pot, plant))! - planting.potRadius;
      expect(distanceInside(outline, plant)).toBeGreaterThanOrEqual(0);
      expect(fromWall).toBeGreaterThanOrEqual(planting.inner - ROUNDING);
      expect(fromWall).toBeLessThanOrEqual(planting.outer + ROUNDING);
    }
    expect(nearestPair(planted)).toBeGreaterThanOrEqual(planting.plantSpacing - ROUNDING);
    plants += planted.length;
  });
  expect(plants).toBeGreaterThan(1000);
});

test("a pot that is moved comes to stand where it may, and nowhere nearer to where it is wanted may it stand", () => {
  const anyMove = fc.tuple(potsInBed, number(0, 1), number(-0.2, 1.2), number(-0.2, 1.2), number(0.5, 1));
  holds(anyMove, ([{ outline, layout, pots }, which, u, v, closer]) => {
    // Nearer to each other than they were laid out, so that there is room to move in.
    const limits = { spacing: closer * layout.spacing, edgeDistance: closer * layout.edgeDistance };
    const index = Math.floor(which * (pots.length - 1));
    const { x0, y0, x1, y1 } = bedBounds(outline);
    const wanted = { x: x0 + u * (x1 - x0), y: y0 + v * (y1 - y0) };
    const moved = nearestAllowed(outline, pots, index, wanted, limits);
    const after = pots.map((pot, i) => (i === index ? moved : pot));
    expect(placeTroubles(outline, after, limits)).toEqual([]);
    const isAllowed = (place: Place) =>
      distanceInside(outline, place) >= limits.edgeDistance &&
      pots.every((pot, i) => i === index || distanceBetween(pot, place) >= limits.spacing);
    for (const place of evenPlaces(500, x0, y0, x1, y1).filter(isAllowed))
      expect(distanceBetween(place, wanted)).toBeGreaterThanOrEqual(distanceBetween(moved, wanted) - ROUNDING);
  });
});

test("the largest bed with the nearest pots is laid out whole", () => {
  const outline: BedOutline = { shape: "rectangle", length: 5000, width: 120 };
  const layout = { grid: "square", spacing: 20, rowAngle: 0, edgeDistance: 10 } as const;
  expect(layOutPots(outline, layout)).toHaveLength(250 * 6);
});
