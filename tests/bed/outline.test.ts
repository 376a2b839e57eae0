import { describe, expect, it } from "vitest";
import { type BedOutline, bedArea, bedBounds, distanceInside, edgeLength } from "../../model/bed/outline.ts";
import { cornerName, outlineTroubles } from "../../model/bed/outlineTroubles.ts";
import { expectClose } from "../support/close.ts";

const places = (...points: [number, number][]) => points.map(([x, y]) => ({ x, y }));
const rectangle: BedOutline = { shape: "rectangle", length: 400, width: 100 };
const circle: BedOutline = { shape: "circle", diameter: 200 };
/** A square of 200 cm without its upper right quarter. */
const corner = places([0, 0], [200, 0], [200, 100], [100, 100], [100, 200], [0, 200]);
const hook: BedOutline = { shape: "polygon", points: corner };

describe("a bed", () => {
  it.each<[BedOutline, number, number]>([
    [rectangle, 40_000, 1000],
    [circle, Math.PI * 100 ** 2, Math.PI * 200],
    [hook, 30_000, 800],
    [{ shape: "polygon", points: corner.toReversed() }, 30_000, 800],
  ])("has its area and the length of its edge, whichever way it runs: %j", (outline, area, edge) => {
    expectClose(bedArea(outline), area, { tolerance: 1e-9, unit: "cm²", what: "area" });
    expectClose(edgeLength(outline), edge, { tolerance: 1e-9, unit: "cm", what: "edge" });
  });

  it("lies within its bounds", () => {
    expect(bedBounds(rectangle)).toEqual({ x0: 0, y0: 0, x1: 400, y1: 100 });
    expect(bedBounds(circle)).toEqual({ x0: 0, y0: 0, x1: 200, y1: 200 });
    expect(bedBounds({ shape: "polygon", points: places([3, -5], [10, 2], [-4, 7]) })).toEqual({
      x0: -4,
      y0: -5,
      x1: 10,
      y1: 7,
    });
  });

  it.each<[BedOutline, [number, number], number]>([
    [rectangle, [30, 40], 30],
    [rectangle, [200, 50], 50],
    [rectangle, [-30, 140], -50],
    [circle, [100, 160], 40],
    [circle, [100, 230], -30],
    // From the inner corner of the hook at (100, 100): inside by 3-4-5, outside by the nearer side.
    [hook, [70, 60], 50],
    [hook, [110, 130], -10],
    [hook, [150, 50], 50],
  ])("tells how far inside its edge a place lies: %j at %j is %d cm", (outline, [x, y], inside) => {
    expectClose(distanceInside(outline, { x, y }), inside, { tolerance: 1e-9, unit: "cm", what: "inside" });
  });
});

describe("corners", () => {
  it("that make a bed have no trouble", () => {
    expect(outlineTroubles(corner)).toEqual([]);
    expect(outlineTroubles(corner.toReversed())).toEqual([]);
    expect(outlineTroubles(places([0, 0], [50, 0], [100, 0], [50, 80]))).toEqual([]);
  });

  it("in one row, at one place, or with sides that cross, touch or run back are none", () => {
    expect(outlineTroubles(places([0, 0], [100, 50], [50, 25], [20, 10]))).toEqual([{ kind: "flat" }]);
    expect(outlineTroubles(places([0, 0], [100, 0], [100, 80], [100, 0.05]))).toEqual([
      { kind: "sameCorner", corners: [1, 3] },
    ]);
    expect(outlineTroubles(places([0, 0], [100, 80], [100, 0], [0, 90]))).toEqual([
      { kind: "crossing", sides: [0, 2] },
    ]);
    expect(outlineTroubles(places([0, 0], [100, 0], [100, 80], [50, 0], [0, 80]))).toEqual([
      { kind: "crossing", sides: [0, 2] },
      { kind: "crossing", sides: [0, 3] },
    ]);
    expect(outlineTroubles(places([50, 0], [0, 80], [0, 0], [100, 0], [100, 80]))).toEqual([
      { kind: "crossing", sides: [0, 2] },
      { kind: "crossing", sides: [2, 4] },
    ]);
    expect(outlineTroubles(places([0, 0], [100, 0], [60, 0], [60, 80]))).toEqual([
      { kind: "crossing", sides: [0, 1] },
      { kind: "crossing", sides: [0, 2] },
    ]);
  });

  it("are called by letters, and by letters and numbers after the twenty-sixth", () => {
    expect([0, 25, 26, 53].map(cornerName)).toEqual(["A", "Z", "A2", "B3"]);
  });
});
