import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  basalCoefficient,
  cropCoefficient,
  dualCoefficients,
  greatestCoefficient,
  groundCover,
  soilCoefficient,
} from "../../model/plants/cropCoefficient.ts";
import { NAMED_STAGES, stageAge } from "../../model/plants/growthStages.ts";
import { expectClose } from "../support/close.ts";

const lettuce = {
  Kc: { initial: 0.7, mid: 1, end: 0.95 },
  stageDays: { initial: 20, development: 30, mid: 15, late: 10 },
  heightMetres: 0.3,
};

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const days = between(1, 250);
const anyCrop = fc.record({
  Kc: fc.record({ initial: between(0.15, 0.7), mid: between(0.8, 1.3), end: between(0.15, 1.3) }),
  stageDays: fc.record({ initial: days, development: days, mid: days, late: days }),
  heightMetres: between(0.1, 2.5),
});
const lifeOf = ({ stageDays }: typeof lettuce) => stageAge(stageDays, "ripening");

describe("the crop coefficient", () => {
  it("is level, rises, is level and falls, by hand for lettuce", () => {
    const ages = [0, 20, 35, 50, 65, 70, 75, 200];
    const known = [0.7, 0.7, 0.85, 1, 1, 0.975, 0.95, 0.95];
    for (const [i, age] of ages.entries())
      expectClose(cropCoefficient(lettuce, age), known[i]!, { tolerance: 1e-12, what: `Kc at ${age} days` });
  });

  it("never jumps: a thousandth of a life moves it by no more than the steepest stage does", () => {
    fc.assert(
      fc.property(anyCrop, between(0, 1), (crop, part) => {
        const [age, step] = [part * lifeOf(crop), lifeOf(crop) / 1000];
        const { initial, mid, end } = crop.Kc;
        const slope = (mid - initial) / crop.stageDays.development + Math.abs(end - mid) / crop.stageDays.late;
        const moved = Math.abs(cropCoefficient(crop, age + step) - cropCoefficient(crop, age));
        expect(moved).toBeLessThanOrEqual(slope * step + 1e-12);
      }),
    );
  });

  it("never falls while plants develop, and stays between its three values", () => {
    fc.assert(
      fc.property(anyCrop, between(0, 1), between(0, 1), (crop, a, b) => {
        const full = stageAge(crop.stageDays, "full grown");
        const [early, late] = [Math.min(a, b) * full, Math.max(a, b) * full];
        expect(cropCoefficient(crop, late)).toBeGreaterThanOrEqual(cropCoefficient(crop, early) - 1e-12);
        const { initial, mid, end } = crop.Kc;
        const ever = cropCoefficient(crop, a * 2 * lifeOf(crop));
        expect(ever).toBeGreaterThanOrEqual(Math.min(initial, end) - 1e-12);
        expect(ever).toBeLessThanOrEqual(Math.max(mid, end) + 1e-12);
      }),
    );
  });
});

describe("water use of leaves and of open, wet soil", () => {
  it("is by hand for full-grown lettuce: Kcb 0.95, cover (0.80/1.05)^1.15, Ke what is left of 1.2 or less", () => {
    const { Kcb, Ke, cover } = dualCoefficients(lettuce, 50);
    expectClose(Kcb, 0.95, { tolerance: 1e-12, what: "Kcb" });
    // exp(1.15 ln 0.761905) = exp(-0.312724) = 0.731452; 1.2 - 0.95 = 0.25 is less than 1.2 (1 - 0.731452) = 0.322258.
    expectClose(cover, 0.731452, { tolerance: 5e-7, what: "cover" });
    expectClose(Ke, 0.25, { tolerance: 1e-12, what: "Ke" });
  });

  it("is the soil's alone before leaves are out: Kcb 0.15, no cover, Ke 1.05", () => {
    const { Kcb, Ke, cover } = dualCoefficients(lettuce, 10);
    expect([Kcb, cover]).toEqual([0.15, 0]);
    expectClose(Ke, 1.05, { tolerance: 1e-12, what: "Ke" });
  });

  it("raises Kc_max for leaves that drink more than 1.15, and lets close leaves limit what the soil gives", () => {
    expectClose(greatestCoefficient(1.3), 1.35, { tolerance: 1e-12, what: "Kc_max" });
    expectClose(soilCoefficient(0.9, 0.9), 0.12, { tolerance: 1e-12, what: "Ke under close leaves" });
  });

  it("is never negative, never more than Kc_max in sum, and cover stays a share", () => {
    fc.assert(
      fc.property(anyCrop, between(0, 1.5), (crop, part) => {
        const { Kcb, Ke, cover } = dualCoefficients(crop, part * lifeOf(crop));
        expect(Ke).toBeGreaterThanOrEqual(0);
        expect(Kcb + Ke).toBeLessThanOrEqual(greatestCoefficient(Kcb) + 1e-12);
        expect(cover).toBeGreaterThanOrEqual(0);
        expect(cover).toBeLessThan(1);
      }),
    );
  });

  it("keeps Kcb at 0.15 or more and at most Kc less 0.05 once grown", () => {
    fc.assert(
      fc.property(anyCrop, between(0, 1.5), (crop, part) => {
        expect(basalCoefficient(crop, part * lifeOf(crop))).toBeGreaterThanOrEqual(0.15 - 1e-12);
        const grown = stageAge(crop.stageDays, "full grown");
        const gap = cropCoefficient(crop, grown) - basalCoefficient(crop, grown);
        expectClose(gap, 0.05, { tolerance: 1e-12, what: "Kc - Kcb" });
      }),
    );
  });

  it("has more cover the more the leaves drink, and less the taller plants of one Kcb are", () => {
    expect(groundCover(0.9, 0.4)).toBeGreaterThan(groundCover(0.6, 0.4));
    expect(groundCover(0.9, 1.5)).toBeLessThan(groundCover(0.9, 0.4));
  });
});

it("named stages of lettuce lie at 20, 35, 50 and 75 days", () => {
  expect(NAMED_STAGES.map((stage) => stageAge(lettuce.stageDays, stage))).toEqual([20, 35, 50, 75]);
});
