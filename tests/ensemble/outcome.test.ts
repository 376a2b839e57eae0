import { describe, expect, it } from "vitest";
import { onDay } from "../../model/advice/pot/history.ts";
import { edgeSeries, sowingAdvice } from "../../model/advice/pot/sowing.ts";
import { fillingLasts } from "../../model/advice/pot/waterGiven.ts";
import type { Member } from "../../model/ensemble/member.ts";
import { ensembleSowingDay, fillingWatched, memberPlan, OUTCOME_DAYS } from "../../model/ensemble/outcome.ts";
import { solveMember } from "../../model/ensemble/task.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { potLitres } from "../../model/pot/buildPot.ts";
import { outlineOf } from "../../model/pot/potOutline.ts";
import { planToProblem } from "../../model/problems/bareProblem.ts";
import { handMade, planned } from "../advice/handMade.ts";
import { expectClose } from "../support/close.ts";
import { memberOf } from "./handMade.ts";

const SAND = { thetaR: 0.045, thetaS: 0.43, alpha: 0.145, n: 2.68, Ks: 712.8, l: 0.5 };

describe("the plan of a member", () => {
  it("is the plan itself where nothing is drawn, but for the class's name", () => {
    const plan = planned();
    expect(memberPlan(plan, memberOf(plan, { className: "loam" }))).toEqual(plan);
  });

  it("has the member's soil, start and wall", () => {
    const plan = planned();
    const changes = { soil: SAND, className: "sand", startHead: -77, wallFactor: 2.5 } as const;
    const own = memberPlan(plan, memberOf(plan, changes));
    expect(own.soil).toEqual({ className: "sand", texture: null, parameters: SAND });
    expect(own.startHead).toBe(-77);
    expect(own.pot).toEqual({ ...plan.pot, wallConductivity: 2.5 * plan.pot.wallConductivity });
  });

  it.each([
    { shape: "cylinder", diameter: 20, height: 25 },
    { shape: "tapered", rimDiameter: 24, baseDiameter: 16, height: 25 },
    { shape: "jar", neckDiameter: 12, bellyDiameter: 30, bellyBelowRim: 12, baseDiameter: 14, height: 25 },
    {
      shape: "profile",
      points: [
        { diameter: 20, belowRim: 0 },
        { diameter: 26, belowRim: 8 },
        { diameter: 10, belowRim: 20 },
      ],
    },
  ])("has a pot of the same form, larger or smaller, with the plan's wall: $shape", (pot) => {
    const plan = planned({ pot });
    const scaled = memberPlan(plan, memberOf(plan, { potScale: 1.2 })).pot;
    expect(scaled.wallThickness).toBe(plan.pot.wallThickness);
    const expected = outlineOf(plan.pot).map(({ r, d }) => ({ r: 1.2 * r, d: 1.2 * d }));
    outlineOf(scaled).forEach(({ r, d }, k) => {
      expectClose(Math.hypot(r - expected[k]!.r, d - expected[k]!.d), 0, {
        tolerance: 1e-12,
        unit: "cm",
        what: "point",
      });
    });
    expect(scaled.rimDepth).toBe(1.2 * plan.pot.rimDepth);
    expect(scaled.outerDepth).toBe(1.2 * plan.pot.outerDepth);
  });
});

describe("the outcome of a member", () => {
  // Seeds sown on day 12 come up on day 16, after the last day told.
  const plan = planned({ sowingDay: 12, filling: { kind: "once" }, days: 15 });
  const outcome = solveMember(plan, memberOf(plan), { kind: "sowing", sowingDay: 12 });
  const run = simulateToEnd(planToProblem(plan, { accuracy: "live", days: [16] }));

  it("tells radius, depth and water given as the plan's own run has them", () => {
    const easyWater = run.history.edges[0]!;
    expect(outcome).toMatchObject({ index: 3, trouble: null });
    expect(outcome.radius).toEqual(
      OUTCOME_DAYS.map((day) => onDay(run, edgeSeries(plan, run, "easyWater").value, day)),
    );
    expect(outcome.depth).toEqual(OUTCOME_DAYS.map((day) => onDay(run, easyWater.wettedDepth, day)));
    expect(outcome.seepageLitres).toBe(onDay(run, run.history.seepageLitres, 14));
    expect(outcome.radius[6]).toBeGreaterThan(10);
  });

  it("tells the limits that the sowing advice tells for that day", () => {
    const advice = sowingAdvice(plan, run);
    const { inner, outer } = advice.kind === "band" ? advice.band : (advice as { inner: number; outer: number });
    expect(outcome.sowing).toEqual({ inner, outer, isOuterAtLeast: false });
  });

  it("tells the day on which the filling is used up", () => {
    const lasts = fillingLasts(plan, run, potLitres(plan.pot));
    expect(lasts).toEqual({ kind: "empty", day: outcome.emptyDay });
  });

  it("tells no such day where the next filling comes first, or a float keeps the level", () => {
    const every = planned({ filling: { kind: "every", days: 1 } });
    const float = planned({ filling: { kind: "float" } });
    expect(solveMember(every, memberOf(every), { kind: "sowing", sowingDay: 0 }).emptyDay).toBeNull();
    expect(solveMember(float, memberOf(float), { kind: "sowing", sowingDay: 0 }).emptyDay).toBeNull();
  });

  it("tells no such day after what the plan looks ahead, however long the run", () => {
    const short = planned({ filling: { kind: "once" }, days: outcome.emptyDay! - 0.5 });
    const long = planned({ filling: { kind: "once" }, days: outcome.emptyDay! + 0.5 });
    expect(solveMember(short, memberOf(short), { kind: "sowing", sowingDay: 0 }).emptyDay).toBeNull();
    expect(solveMember(long, memberOf(long), { kind: "sowing", sowingDay: 0 }).emptyDay).not.toBeNull();
    expect(fillingWatched(short)).toBe(short.days);
  });

  it("of a larger pot with a more open wall shows more water given", () => {
    const given = (changes: Partial<Member>) =>
      solveMember(plan, memberOf(plan, changes), { kind: "sowing", sowingDay: 0 }).seepageLitres;
    expect(given({ potScale: 1.25 })).toBeGreaterThan(outcome.seepageLitres);
    const held = planned({ filling: { kind: "float" } });
    const factor = (wallFactor: number) =>
      solveMember(held, memberOf(held, { wallFactor }), { kind: "sowing", sowingDay: 0 }).seepageLitres;
    expect(factor(1.5)).toBeGreaterThan(factor(1));
  });
});

describe("the sowing day of an ensemble", () => {
  it("is the one that the person chose", () => {
    const plan = planned({ sowingDay: 2 });
    expect(ensembleSowingDay(plan, handMade(plan, { day: [0, 10], moist: [10, 30] }))).toBe(2);
    expect(ensembleSowingDay(plan, handMade(plan, { day: [0, 1] }))).toBe(2);
  });

  it("is else the one that the plan's own run advises, band or none", () => {
    const plan = planned();
    // The sprouting edge moves 2 cm a day and stands a hand from the wall on day 5.
    expect(ensembleSowingDay(plan, handMade(plan, { day: [0, 10], moist: [10, 30] }))).toBe(5);
    expect(ensembleSowingDay(plan, handMade(plan, { day: [0, 10], moist: [100, 100] }))).toBe(0);
    expect(ensembleSowingDay(plan, handMade(plan, { day: [0, 10] }))).toBe(0);
  });

  it("is not told by a run that ended too early", () => {
    const plan = planned();
    expect(() => ensembleSowingDay(plan, handMade(plan, { day: [0, 1], moist: [10, 30] }))).toThrow(RangeError);
  });
});
