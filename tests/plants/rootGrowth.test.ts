import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rootGrowth } from "../../model/plants/rootGrowth.ts";

// Full grown at 50 days: 0.96 cm deeper and 0.5 cm wider each day until then.
const growth = {
  start: { depth: 2, spread: 0 },
  full: { depth: 50, spread: 25 },
  stageDays: { initial: 20, development: 30, mid: 15, late: 10 },
};

describe("roots during a run", () => {
  it("grow in a straight line, stop at mid-season, and stay", () => {
    expect(rootGrowth(growth, { age: 25, days: 60 })).toEqual([
      { day: 0, depth: 26, spread: 12.5 },
      { day: 25, depth: 50, spread: 25 },
      { day: 60, depth: 50, spread: 25 },
    ]);
  });

  it("begin as they were sown", () => {
    expect(rootGrowth(growth, { age: 0, days: 50 })).toEqual([
      { day: 0, depth: 2, spread: 0 },
      { day: 50, depth: 50, spread: 25 },
    ]);
  });

  it("no longer grow in a run that begins after", () => {
    expect(rootGrowth(growth, { age: 60, days: 14 }).map(({ depth, spread }) => [depth, spread])).toEqual([
      [50, 25],
      [50, 25],
    ]);
  });

  it("are on every day of two runs, one after the other, as in one run over both", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 1, max: 60 }), (age, days) => {
        const last = rootGrowth(growth, { age, days }).at(-1)!;
        const next = rootGrowth(growth, { age: age + days, days })[0]!;
        expect([last.day, last.depth, last.spread]).toEqual([days, next.depth, next.spread]);
      }),
    );
  });

  it("have knots in the order of days, and never shrink", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 1, max: 60 }), (age, days) => {
        const knots = rootGrowth(growth, { age, days });
        for (const [i, knot] of knots.slice(1).entries()) {
          expect(knot.day).toBeGreaterThan(knots[i]!.day);
          expect(knot.depth).toBeGreaterThanOrEqual(knots[i]!.depth);
        }
      }),
    );
  });
});
