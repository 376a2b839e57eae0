import { describe, expect, it } from "vitest";
import { demandOf, monthETo } from "../../model/problems/demand.ts";
import { expectClose } from "../support/close.ts";
import { plan } from "../support/livingPlan.ts";

describe("demand of a bed in its month", () => {
  // Hargreaves by hand: Ra at 40° on day 196 is 40.6 MJ, (33 + 20)/2 + 17.8 = 44.3, √13: 0.0023 · 44.3 · 3.606 · 0.408 · 40.6.
  it("takes the reference evapotranspiration from the month's temperatures", () => {
    expectClose(monthETo(plan()), 6.09, { tolerance: 0.04, unit: "mm/day", what: "July of the example" });
    expect(monthETo(plan({ month: "january" }))).toBeLessThan(2);
  });

  // Tomato: Kcb 1.15 − 0.05 full grown, 0.15 young; Kc_max 1.2, so that wet soil is left with the rest.
  it("shares it out between leaves and soil by the plants' stage", () => {
    const at = (stage: "young" | "full grown" | null) => demandOf(plan({ mulch: { kind: "none" } }), stage, 0, 10);
    expect(at("full grown").transpiration).toBeCloseTo(11, 10);
    expect(at("full grown").evaporation).toBeCloseTo(1, 10);
    expect(at("young").transpiration).toBeCloseTo(1.5, 10);
    expect(at("young").evaporation).toBeCloseTo(10.5, 10);
    expect(at(null)).toMatchObject({ transpiration: 0, evaporation: 12 });
  });

  it("of young plants grows as they do", () => {
    const later = [0, 10, 20, 40].map((day) => demandOf(plan(), "young", day, 5).transpiration);
    expect(later.every((value, k) => value > (later[k - 1] ?? 0))).toBe(true);
  });

  // FAO-56, ch. 10 (from memory): 5 % less evaporation for each tenth of the ground under mulch.
  it("lets mulch halve at most what the soil loses, and leaves the plants' thirst alone", () => {
    const under = (cover: number) => demandOf(plan({ mulch: { kind: "organic", cover } }), "young", 0, 10);
    expect(under(100).evaporation).toBeCloseTo(5.25, 10);
    expect(under(40).evaporation).toBeCloseTo(8.4, 10);
    expect(under(100).transpiration).toBe(under(0).transpiration);
  });

  it("asks an open pot for 1.05 of the reference, and one with a lid for nothing", () => {
    expect(demandOf(plan({ lid: false }), null, 0, 6).openWater).toBeCloseTo(6.3, 10);
    expect(demandOf(plan(), null, 0, 6).openWater).toBe(0);
  });
});
