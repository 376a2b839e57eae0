import { describe, expect, it } from "vitest";
import { nearestAllowed } from "../../model/bed/nearestAllowed.ts";
import type { BedOutline, Place } from "../../model/bed/outline.ts";
import { placeTroubles } from "../../model/bed/placeTroubles.ts";
import { expectClose } from "../support/close.ts";

const bed: BedOutline = { shape: "rectangle", length: 400, width: 200 };
const limits = { spacing: 60, edgeDistance: 20 };
const places = (...points: [number, number][]) => points.map(([x, y]) => ({ x, y }));

function expectAt(place: Place, x: number, y: number) {
  expectClose(place.x, x, { tolerance: 1e-6, unit: "cm", what: "x" });
  expectClose(place.y, y, { tolerance: 1e-6, unit: "cm", what: "y" });
}

describe("places chosen by hand", () => {
  it("are told that lie outside, near the edge, or near another pot, with the distance", () => {
    const chosen = places([100, 100], [150, 100], [5, 100], [430, 100], [300, 100], [330, 60], [240, 181]);
    expect(placeTroubles(bed, chosen, limits)).toEqual([
      { pot: 1, kind: "nearPot", distance: 50, other: 0 },
      { pot: 2, kind: "nearEdge", distance: 5 },
      { pot: 3, kind: "outside", distance: 30 },
      { pot: 5, kind: "nearPot", distance: 50, other: 4 },
      { pot: 6, kind: "nearEdge", distance: 19 },
    ]);
  });

  it("that keep their limits just so have no trouble", () => {
    expect(placeTroubles(bed, places([20, 20], [80, 20], [380, 180]), limits)).toEqual([]);
  });
});

describe("a pot that is moved", () => {
  const move = (others: Place[], wanted: [number, number]) =>
    nearestAllowed(bed, [{ x: 50, y: 50 }, ...others], 0, { x: wanted[0], y: wanted[1] }, limits);

  it("goes where it is wanted, if nothing is in the way", () => {
    expect(move(places([200, 100]), [300, 100])).toEqual({ x: 300, y: 100 });
  });

  it("stops at the edge distance, in a corner and far outside too", () => {
    expectAt(move([], [200, 5]), 200, 20);
    expectAt(move([], [395, 198]), 380, 180);
    expectAt(move([], [200, 5000]), 200, 180);
  });

  it("stops a spacing away from another pot, on the way towards where it is wanted", () => {
    // From (200, 100) by 3-4-5.
    expectAt(move(places([200, 100]), [230, 140]), 236, 148);
  });

  // Circles of 60 cm about pots 80 cm apart meet √(60² - 40²) = 44.72 cm beside the middle between them.
  it("between two others goes to where it is a spacing from both", () => {
    expectAt(move(places([160, 100], [240, 100]), [200, 110]), 200, 100 + Math.sqrt(2000));
  });

  it("between another and the edge keeps both distances", () => {
    expectAt(move(places([200, 50]), [240, 10]), 200 + Math.sqrt(60 ** 2 - 30 ** 2), 20);
  });

  it("stays where it is when no place is left", () => {
    const small: BedOutline = { shape: "rectangle", length: 60, width: 60 };
    const both = places([20, 20], [40, 40]);
    expect(nearestAllowed(small, both, 0, { x: 30, y: 30 }, limits)).toEqual({ x: 20, y: 20 });
  });

  // The inner corner of the hook is at (100, 100); from there by 3-4-5.
  it("keeps its distance from an inner corner on all ways about it", () => {
    const hook = places([0, 0], [200, 0], [200, 100], [100, 100], [100, 200], [0, 200]);
    const bed: BedOutline = { shape: "polygon", points: hook };
    expectAt(nearestAllowed(bed, places([40, 40]), 0, { x: 94, y: 92 }, limits), 88, 84);
  });

  it("keeps to a round bed", () => {
    const round: BedOutline = { shape: "circle", diameter: 200 };
    expectAt(nearestAllowed(round, places([100, 100]), 0, { x: 160, y: 180 }, limits), 148, 164);
  });
});
