import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { hardGround } from "../../../model/advice/pot/hardGround.ts";
import { onDay } from "../../../model/advice/pot/history.ts";
import {
  demandOutcome,
  demandProblem,
  emptyPotProblem,
  headFromWall,
  potWaterUse,
  releaseIntoStandingWater,
  shareByPot,
  stageProblem,
  straightLine,
  TRIED_DEMANDS,
} from "../../../model/advice/pot/selfRegulation.ts";
import type { Run } from "../../../model/flow/run.ts";
import { simulateToEnd } from "../../../model/flow/simulate.ts";
import { buildPot, potLitres } from "../../../model/pot/buildPot.ts";
import { expectClose } from "../../support/close.ts";
import { cylinder } from "../../support/pots.ts";
import { handMade, planned } from "../handMade.ts";

const solved = (problem: Parameters<typeof simulateToEnd>[0]): Run => simulateToEnd({ ...problem, accuracy: "live" });

const float = { filling: { kind: "float" } };

describe("the straight line", () => {
  it("finds the line that points lie on, and accounts for all of them", () => {
    const line = straightLine([2, 4, 6, 8].map((x) => ({ x, y: 3 - 0.25 * x })));
    expectClose(line.slope, -0.25, { tolerance: 1e-12, what: "slope" });
    expectClose(line.intercept, 3, { tolerance: 1e-12, what: "intercept" });
    expectClose(line.explained, 1, { tolerance: 1e-12, what: "R²" });
  });

  it("accounts for three quarters of points worked out by hand", () => {
    // Means 1 and 2; slope 3/2, misfits -1/2, 1, -1/2: 3/2 of a spread of 6.
    const line = straightLine([
      { x: 0, y: 0 },
      { x: 1, y: 3 },
      { x: 2, y: 3 },
    ]);
    expectClose(line.slope, 1.5, { tolerance: 1e-12, what: "slope" });
    expectClose(line.intercept, 0.5, { tolerance: 1e-12, what: "intercept" });
    expectClose(line.explained, 0.75, { tolerance: 1e-12, what: "R²" });
  });

  it("has nothing left to account for where all are equal", () => {
    expect(straightLine([2, 4].map((x) => ({ x, y: 5 })))).toEqual({ slope: 0, intercept: 5, explained: 1 });
  });
});

describe("water standing in the soil", () => {
  const pot = buildPot(cylinder);

  it("takes nothing from a pot whose water stands as high", () => {
    expect(releaseIntoStandingWater(pot, 0)).toBe(0);
  });

  it("takes Kw dw / w from every square centimetre of the buried wall where the pot's stands higher", () => {
    // Side 2π 10 · 20 and base π 10², with 3 cm of head over a wall of 1 cm of 0.05 cm/day.
    const area = 2 * Math.PI * 10 * 20 + Math.PI * 10 ** 2;
    expectClose(releaseIntoStandingWater(pot, -3), (0.05 * 3 * area) / 1000, {
      tolerance: 1e-12,
      unit: "L/day",
      what: "release",
    });
    expectClose(releaseIntoStandingWater(pot, 2), (-0.05 * 2 * area) / 1000, {
      tolerance: 1e-12,
      unit: "L/day",
      what: "water coming in",
    });
  });
});

describe("the share of the pot", () => {
  it("is what plants take beyond what they take around an empty pot", () => {
    expect(shareByPot({ taken: 4 }, { taken: 1 })).toBe(0.75);
    expect(shareByPot({ taken: 4 }, { taken: 0 })).toBe(1);
  });

  it("is 0 where nothing is taken, or less for the pot", () => {
    expect(shareByPot({ taken: 0 }, { taken: 0 })).toBe(0);
    expect(shareByPot({ taken: 1 }, { taken: 2 })).toBe(0);
  });
});

describe("ground hard to drink from", () => {
  // Of each row, with its middle at 10 and at 30 cm, the inner cell holds 1000 cm³ and the outer one 24 000.
  const plan = planned({ crop: { kind: "own", easyWaterSuctionKPa: 50, tooWetSuctionKPa: 2.5, deepestRoots: 40 } });
  const run = handMade(plan, { day: [0, 1] });
  const frame = { ...run.frames[0]!, h: Float64Array.of(-5, -100, -2000, -100) };

  it("is counted by the volume of soil, as deep as roots go", () => {
    const { tooWet, tooDry } = hardGround(plan, run, frame);
    expectClose(tooWet, 1000 / 50_000, { tolerance: 1e-12, what: "too wet" });
    expectClose(tooDry, 1000 / 50_000, { tolerance: 1e-12, what: "too dry" });
  });

  it("leaves out ground below the deepest roots", () => {
    const shallow = planned({
      crop: { kind: "own", easyWaterSuctionKPa: 50, tooWetSuctionKPa: 2.5, deepestRoots: 20 },
    });
    const { tooWet, tooDry } = hardGround(shallow, run, frame);
    expectClose(tooWet, 1000 / 25_000, { tolerance: 1e-12, what: "too wet" });
    expect(tooDry).toBe(0);
  });
});

describe("two weeks of a bed", () => {
  const plan = planned({ month: "july", weather: { kind: "example" } });
  const bare = solved(stageProblem(plan, null));
  const grown = solved(stageProblem(plan, "full grown"));

  it("want and take nothing where nothing is planted", () => {
    const use = potWaterUse(plan, bare);
    expect([use.wanted, use.taken, use.met, use.metAtEnd]).toEqual([0, 0, 1, 1]);
  });

  it("tell litres a day that add up to the run's own and to the ground's gain", () => {
    const use = potWaterUse(plan, grown);
    const total = grown.history.seepageLitres.at(-1)!;
    expectClose(use.given * 14, total, { tolerance: 1e-9, unit: "L", what: "given" });
    expectClose(
      use.givenByDay.reduce((sum, litres) => sum + litres, 0),
      total,
      { tolerance: 1e-9, unit: "L", what: "day by day" },
    );
    expectClose(
      use.takenByDay[4]!,
      onDay(grown, grown.history.uptakeLitres, 5) - onDay(grown, grown.history.uptakeLitres, 4),
      { tolerance: 1e-12, unit: "L", what: "taken on the fifth day" },
    );
    const { V } = grown.grid;
    const gain = grown.frames.at(-1)!.theta.reduce((sum, theta, c) => sum + V[c]! * (theta - grown.startTheta[c]!), 0);
    expectClose(use.kept, gain / 1000 / 14, { tolerance: 1e-3, unit: "L/day", what: "left in the ground" });
  });

  it("count the days that a pot filled once stands empty", () => {
    const once = planned({ filling: { kind: "once" } });
    const run = solved(stageProblem(once, "full grown"));
    const { emptyDays, given } = potWaterUse(once, run);
    expectClose(emptyDays, 14 - run.firstEmptyDay!, { tolerance: 1e-6, unit: "days", what: "empty" });
    expectClose(given * 14, potLitres(once.pot), {
      tolerance: 1e-4,
      relative: true,
      unit: "L",
      what: "given",
    });
    expect(potWaterUse(planned(float), solved(stageProblem(planned(float), null))).emptyDays).toBe(0);
  });

  it("give nothing from a pot that is never filled", () => {
    const run = solved(emptyPotProblem(plan, "full grown"));
    expect(run.history.seepageLitres.at(-1)).toBe(0);
    expect(potWaterUse(plan, run).emptyDays).toBe(14);
  });

  it("read a head that grows with the distance from the axis so far from the wall", () => {
    // The straight pot's wall stands 10 cm from the axis; the ground ends 40 cm from it.
    const frame = bare.frames[0]!;
    const { grid } = bare;
    const columns = grid.rEdges.length - 1;
    const h = new Float64Array(frame.h.length);
    grid.cellAt.forEach((cell, k) => {
      if (cell >= 0) h[cell] = -grid.rCentre[k % columns]!;
    });
    expectClose(headFromWall(plan, bare, { ...frame, h }, 10), -20, {
      tolerance: 1e-6,
      unit: "cm",
      what: "a hand from the wall",
    });
    expectClose(headFromWall(plan, bare, { ...frame, h }, 500), -grid.rCentre.at(-1)!, {
      tolerance: 1e-6,
      unit: "cm",
      what: "at the side",
    });
  });

  it("find the soil wetter near the wall than farther out", () => {
    const last = bare.frames.at(-1)!;
    expect(headFromWall(plan, bare, last, 1)).toBeGreaterThan(headFromWall(plan, bare, last, 20));
  });
});

describe("release against demand", () => {
  const plan = planned({ filling: { kind: "once" } });

  it("holds the level whatever the plan's filling, and takes the second week", () => {
    const problem = demandProblem(plan, 4);
    expect(problem.filling).toEqual({ kind: "held", levelDepth: 0 });
    expect(problem.days).toEqual([7, 14]);
    const run = solved(problem);
    const week = (values: number[]) => (values.at(-1)! - onDay(run, values, 7)) / 7;
    expectClose(demandOutcome(run).given, week(run.history.seepageLitres), {
      tolerance: 1e-12,
      unit: "L/day",
      what: "given",
    });
    expectClose(demandOutcome(run).taken, week(run.history.uptakeLitres), {
      tolerance: 1e-12,
      unit: "L/day",
      what: "taken",
    });
  });

  it("asks the more of the plants the thirstier the air", () => {
    const wanted = TRIED_DEMANDS.map((ETo) => demandProblem(plan, ETo).weather[0]!.transpiration);
    range(1, 4).forEach((k) => {
      expectClose(wanted[k]! / wanted[0]!, TRIED_DEMANDS[k]! / TRIED_DEMANDS[0]!, { tolerance: 1e-12, what: "demand" });
    });
  });
});
