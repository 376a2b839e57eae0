import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { sinceStart } from "../../model/flow/spells.ts";
import { groundRadius, type LivingOptions, livingProblem, plantRadius } from "../../model/problems/livingProblem.ts";
import { expectClose } from "../support/close.ts";
import { plan } from "../support/livingPlan.ts";
import { runToEnd } from "../support/runs.ts";

const options = (changes: Partial<LivingOptions> = {}): LivingOptions => ({
  stage: "full grown",
  days: range(1, 15),
  ...changes,
});
const rainy = (month: object) => {
  const months = ["january", "february", "march", "april", "may", "june", "july", "august", "september"];
  const all = [...months, "october", "november", "december"].map((name) => [name, { high: 25, low: 12, ...month }]);
  return { weather: { kind: "own", latitude: 45, months: Object.fromEntries(all) } };
};
const last = (values: number[]) => values.at(-1)!;

describe("the run of a living bed", () => {
  it("has a circle of the ground that the pot serves, and plants that stand within it", () => {
    const small = plan({ spacing: 44, plantsFromWall: 10 });
    expectClose(Math.PI * groundRadius(small) ** 2, 44 ** 2, { tolerance: 1e-9, unit: "cm²", what: "ground" });
    expect(livingProblem(small, options()).region.radius).toBe(groundRadius(small));
    expect(plantRadius(small)).toBe(20);
    expect(plantRadius(plan({ spacing: 44, plantsFromWall: 50 }))).toBe(groundRadius(small));
  });

  it("has the ground of the plan's own grid when asked for in three dimensions", () => {
    const close = plan({ spacing: 44, potGrid: "triangular" });
    expect(livingProblem(close, options()).neighbours).toBeNull();
    const { neighbours, region } = livingProblem(close, options({ inThreeDimensions: true }));
    expect(neighbours).toEqual({ grid: "triangular", spacing: 44 });
    expect(region).toEqual(livingProblem(close, options()).region);
  });

  it("asks plants and soil for the month's demand, in cm a day", () => {
    const { weather } = livingProblem(plan(), options({ ETo: 10 }));
    expect(weather[0]!.transpiration).toBeCloseTo(1.1, 10);
    expect(weather[0]!.evaporation).toBeCloseTo(0.1, 10);
    expect(weather[0]).toMatchObject({ fromDay: 0, rain: 0, potRain: 0, potEvaporation: 0 });
  });

  // 61 mm on 10 days of 30.4: in 15.2 days five rains of 6.1 mm.
  it("lets the month's rain fall in equal parts, through an open pot too but not through a lid", () => {
    const wet = (lid: boolean) =>
      livingProblem(plan({ ...rainy({ rain: 61, rainDays: 10 }), lid }), options({ days: [15.2] })).weather;
    expectClose(sinceStart(wet(true), "rain", 15.2), 3.05, { tolerance: 1e-9, unit: "cm", what: "rain" });
    expect(sinceStart(wet(true), "potRain", 15.2)).toBe(0);
    expectClose(sinceStart(wet(false), "potRain", 15.2), 3.05, { tolerance: 1e-9, unit: "cm", what: "into the pot" });
  });

  it("waters by hand from the first day on, beside the pot", () => {
    const handWatering = { kind: "every", days: 3, amount: 12 };
    const { weather } = livingProblem(plan({ ...rainy({ rain: 0 }), handWatering, lid: false }), options());
    expectClose(sinceStart(weather, "rain", 14), 5 * 1.2, { tolerance: 1e-9, unit: "cm", what: "by hand in 14 days" });
    expect(sinceStart(weather, "potRain", 14)).toBe(0);
  });

  it("lets roots of young plants grow through the run, and those of full-grown ones stand", () => {
    const depths = (stage: LivingOptions["stage"]) =>
      livingProblem(plan(), options({ stage })).roots!.growth.map(({ depth }) => depth);
    const [young, later] = [depths("young").at(0)!, depths("young").at(-1)!];
    expect(later).toBeGreaterThan(young);
    expect(new Set(depths("full grown"))).toEqual(new Set([70]));
    expect(livingProblem(plan(), options({ stage: null })).roots).toBeNull();
  });

  it("has the plan's mix, start, filling and crop in it", () => {
    const bed = plan({ bedMix: { kind: "class", name: "sandy loam", depth: 25 }, startMoisture: "moist" });
    const problem = livingProblem(bed, options());
    expect(problem.topLayer).toEqual({ soil: bed.bedMix!.parameters, depth: 25 });
    expect(problem.startHead).toBe(bed.startHead);
    expect(problem.roots!.limits).toEqual(bed.crop.uptake);
    expect(problem.filling).toEqual({ kind: "refilled", atDays: [0, 3, 6, 9, 12] });
  });

  it("runs to its end, and plants get some of what they want, whether their roots spread or crowd about the wall", () => {
    const taken = (areGathered: boolean) => {
      const problem = livingProblem(plan(), options({ accuracy: "live", areGathered }));
      const { uptakeLitres, wantedLitres } = runToEnd(problem).history;
      expect(last(wantedLitres)).toBeGreaterThan(40);
      return last(uptakeLitres);
    };
    expect(taken(false)).toBeGreaterThan(5);
    expect(taken(true)).toBeGreaterThan(5);
  });
});
