import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stressCoefficient } from "../../model/checks/fao56.ts";
import { daysUntilStress, depletionShare } from "../../model/plants/depletion.ts";
import { expectClose } from "../support/close.ts";

const zone = { fieldCapacity: 0.32, wiltingPoint: 0.12, rootDepthMetres: 0.8 };

describe("a root zone without a pot", () => {
  // TAW 160 mm, p = 0.40 + 0.04 · (5 − 4) = 0.44, RAW 70.4 mm, at 4 mm/day.
  it("lasts 17.6 days from 160 mm at 4 mm/day", () => {
    const known = { tolerance: 1e-9, unit: "days", what: "days until stress" };
    expectClose(daysUntilStress(zone, { pTable: 0.4, ETcMm: 4 }), 17.6, known);
  });

  it("lasts for ever where nothing is used, and not at all without roots", () => {
    expect(daysUntilStress(zone, { pTable: 0.4, ETcMm: 0 })).toBe(Number.POSITIVE_INFINITY);
    expect(daysUntilStress({ ...zone, rootDepthMetres: 0 }, { pTable: 0.4, ETcMm: 4 })).toBe(0);
  });

  it("suffers nothing until RAW is gone, and more and more after", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 0.1, max: 0.8, noNaN: true }), (a, b, p) => {
        const Ks = (part: number) => stressCoefficient({ TAWMm: 160, DrMm: 160 * part, p });
        expect(Ks(Math.max(a, b))).toBeLessThanOrEqual(Ks(Math.min(a, b)));
        expectClose(Ks(a * p), 1, { tolerance: 1e-12, what: "Ks before RAW is gone" });
      }),
    );
  });

  it("is used to a smaller share the more is asked for", () => {
    expect(depletionShare(0.4, 8)).toBeLessThan(depletionShare(0.4, 3));
  });
});
