import { describe, expect, it } from "vitest";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import {
  edgeIndex,
  establishmentDays,
  lastDayOf,
  planEdges,
  planToProblem,
  plantedDepth,
} from "../../model/problems/bareProblem.ts";
import { readProblem } from "../../model/problems/problemFile.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";

function planned(changes: object = {}) {
  return soundValue(
    resolvePlan({
      version: 1,
      units: "metric",
      soil: { kind: "class", name: "loam" },
      pot: { shape: "tapered", rimDiameter: 30, baseDiameter: 18, height: 28, rimAboveSoil: 2 },
      crop: { kind: "listed", name: "lettuce" },
      rootDepth: 15,
      sowing: { kind: "seed", sowingDepth: 1.5, emergenceDays: 8, sproutingSuctionKPa: 98.0665 },
      startSuctionKPa: 490.3325,
      ...changes,
    }),
  );
}

describe("the problem of a plan", () => {
  it("has the plan's soil, pot and start, and runs to the days that are told", () => {
    const plan = planned();
    const problem = planToProblem(plan);
    expect(problem).toMatchObject({
      soil: plan.soil.parameters,
      pot: plan.pot,
      // Seeds sown on day 14 need 8 days more.
      days: [1, 3, 7, 14, 22],
      accuracy: "standard",
    });
    expectClose(problem.startHead, -5000, { tolerance: 1e-9, unit: "cm", what: "start" });
    expect(planToProblem(planned({ days: 5 })).days).toEqual([1, 3, 5, 7, 13]);
    expect(planToProblem(planned({ days: 30 })).days).toEqual([1, 3, 7, 14, 30, 38]);
    expect(planToProblem(planned({ days: 9, sowingDay: 0 })).days).toEqual([1, 3, 7, 9]);
    expect(planToProblem(planned({ days: 0.5, sowingDay: 0 })).days).toEqual([0.5, 1, 3, 7, 8]);
  });

  it("follows the easy-water edge at root depth first, then the three at sowing depth", () => {
    const plan = planned();
    const { edges, soil } = planToProblem(plan);
    const { theta } = vanGenuchten(soil);
    // Lettuce at 5 mm/day: Taylor & Ashcroft (1972); too wet: Feddes et al. (1978).
    expect(edges.slice(0, 3)).toEqual([
      { head: -400, depth: 15 },
      { head: expect.closeTo(-1000, 9), depth: 1.5 },
      { head: -25, depth: 1.5 },
    ]);
    const rise = theta(edges[3]!.head) - theta(plan.startHead);
    expectClose(rise, 0.01, { tolerance: 1e-9, unit: "cm3/cm3", what: "rise of water content at the front" });
    expect(["easyWater", "sprouting", "soaked", "front"].map((name) => edgeIndex(plan, name as "front"))).toEqual([
      0, 1, 2, 3,
    ]);
  });

  it("for starters wants easy water at the depth of the root ball", () => {
    const plan = planned({ sowing: { kind: "starter", rootBallDepth: 9, rootBallRadius: 4 } });
    expect(plantedDepth(plan)).toBe(9);
    expect(planEdges(plan).sprouting).toEqual({ head: -400, depth: 9 });
    expect(planEdges(plan).soaked).toEqual({ head: -25, depth: 9 });
  });

  it("for another soil under the same plan moves the front's suction with the soil", () => {
    const plan = planned();
    const sand = { thetaR: 0.045, thetaS: 0.43, alpha: 0.145, n: 2.68, Ks: 712.8, l: 0.5 };
    const problem = planToProblem(plan, { soil: sand, accuracy: "live", days: [2] });
    expect(problem).toMatchObject({ soil: sand, accuracy: "live", days: [2] });
    expect(problem.edges[3]!.head).toBeGreaterThan(planEdges(plan).front.head);
  });

  it("where soil begins too wet to rise any further puts the front where nothing reaches it", () => {
    const soil = { kind: "own", thetaR: 0.05, thetaS: 0.4, alpha: 1e-4, n: 1.5, Ks: 1 };
    expect(planEdges(planned({ soil, startSuctionKPa: 1 })).front.head).toBe(0);
  });

  it("fills the pot at the start and then as the plan says", () => {
    const filling = (changes: object) => planToProblem(planned(changes)).filling;
    expect(filling({ filling: { kind: "once" } })).toEqual({ kind: "refilled", atDays: [0] });
    expect(filling({ filling: { kind: "every", days: 5 } })).toEqual({
      kind: "refilled",
      atDays: [0, 5, 10, 15, 20],
    });
    // The run ends on day 22, so that a filling on that day would come too late.
    expect(filling({ filling: { kind: "every", days: 11 } })).toEqual({ kind: "refilled", atDays: [0, 11] });
    expect(filling({ filling: { kind: "float" } })).toEqual({ kind: "held", levelDepth: 0 });
    const sunk = { shape: "cylinder", diameter: 20, height: 25, rimAboveSoil: -4 };
    expect(filling({ filling: { kind: "float" }, pot: sunk })).toEqual({ kind: "held", levelDepth: 4 });
  });

  it("runs on to the end of emergence from the chosen sowing day, or from any day of the look ahead", () => {
    expect(lastDayOf(planned({ sowingDay: 10 }))).toBe(18);
    expect(lastDayOf(planned({ sowingDay: 2 }))).toBe(14);
    expect(lastDayOf(planned())).toBe(22);
    expect(lastDayOf(planned({ sowingDay: 40 }))).toBe(48);
  });

  it("for starters runs on through the watering by hand and a week without it", () => {
    const sowing = { kind: "starter", rootBallDepth: 9, rootBallRadius: 4, handWateringDays: 5 };
    expect(establishmentDays(planned({ sowing }))).toBe(12);
    expect(lastDayOf(planned({ sowing }))).toBe(26);
  });

  it("puts the region's sides well beyond the pot, farther for big pots and long runs", () => {
    const region = (changes: object) => planToProblem(planned({ sowingDay: 0, ...changes })).region;
    expect(region({})).toEqual({ radius: 100, depth: 156 });
    const big = { shape: "cylinder", diameter: 60, height: 80, wallThickness: 2, rimAboveSoil: 0 };
    expect(region({ pot: big })).toEqual({ radius: 150, depth: 210 });
    // Four times as long a run: the distances beyond the pot's base, and the radius, are twice as large.
    expect(region({ days: 56 })).toEqual({ radius: 200, depth: 286 });
    expect(region({ days: 56, sowingDay: 48 })).toEqual(region({ days: 56 }));
    expect(region({ days: 48, sowingDay: null })).toEqual(region({ days: 56 }));
  });

  it("is one that a problem file could hold", () => {
    const { soil, pot, filling, startHead, region, days, edges } = planToProblem(planned());
    const { Ks, l, ...retention } = soil;
    const file = {
      soil: { retention, conductivity: { Ks, l } },
      pot,
      filling,
      startHead,
      region,
      ask: { days, edgeHead: edges[0]!.head, radiusAtDepth: edges[0]!.depth },
    };
    const problem = readProblem(JSON.stringify(file));
    expect(problem).toEqual({ ok: true, value: { ...planToProblem(planned()), edges: [edges[0]] } });
  });
});
