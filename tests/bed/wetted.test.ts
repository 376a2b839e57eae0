import { describe, expect, it } from "vitest";
import { wettedShare } from "../../model/bed/wetted.ts";
import { expectClose } from "../support/close.ts";

const bed = { shape: "rectangle", length: 480, width: 120 } as const;
const area = 480 * 120;

/** Area that two circles of a radius share, so far apart (closed form of two circular segments). */
const lens = (radius: number, apart: number) =>
  2 * radius ** 2 * Math.acos(apart / (2 * radius)) - (apart / 2) * Math.sqrt(4 * radius ** 2 - apart ** 2);

describe("the wetted share of a bed", () => {
  it.each([5, 30, 59.9])("is a circle's area over the bed's, of %d cm radius", (radius) => {
    expectClose(wettedShare(bed, [{ x: 200, y: 60 }], radius), (Math.PI * radius ** 2) / area, {
      tolerance: 1e-3,
      relative: true,
      what: "share of one circle",
    });
  });

  it("counts once what two pots wet", () => {
    const places = [200, 240].map((x) => ({ x, y: 60 }));
    const expected = (2 * Math.PI * 30 ** 2 - lens(30, 40)) / area;
    expectClose(wettedShare(bed, places, 30), expected, { tolerance: 1e-3, relative: true, what: "share of two" });
  });

  it("leaves out what lies beyond the edge: half a circle of a pot on it, a quarter of one at a corner", () => {
    const circle = (Math.PI * 50 ** 2) / area;
    expectClose(wettedShare(bed, [{ x: 200, y: 0 }], 50), circle / 2, {
      tolerance: 1e-3,
      relative: true,
      what: "half",
    });
    expectClose(wettedShare(bed, [{ x: 0, y: 120 }], 50), circle / 4, {
      tolerance: 1e-3,
      relative: true,
      what: "quarter",
    });
  });

  it("in a round bed is the share of the radii squared", () => {
    const places = [{ x: 100, y: 100 }];
    expectClose(wettedShare({ shape: "circle", diameter: 200 }, places, 50), 0.25, {
      tolerance: 1e-3,
      relative: true,
      what: "share",
    });
  });

  it("is none without pots and all where a circle covers the bed", () => {
    expect(wettedShare(bed, [], 50)).toBe(0);
    expect(wettedShare(bed, [{ x: 240, y: 60 }], 250)).toBe(1);
  });
});
