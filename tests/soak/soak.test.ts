import { range } from "d3-array";
import { describe, expect, it, test } from "vitest";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { inProcess } from "../support/commands.ts";
import { cylinderProblem } from "../support/problems.ts";
import { drawnPlan } from "./drawnPlan.ts";
import { soak } from "./soak.ts";
import { tryPlans } from "./trials.ts";
import { notNumbers, tooWet } from "./triedPlan.ts";

describe("plans drawn by chance", () => {
  const plans = range(12).map((number) => drawnPlan(1, number));

  it("are plans, the same ones for the same seed and number", () => {
    for (const { typed } of plans) expect(resolvePlan(typed).ok).toBe(true);
    expect(drawnPlan(1, 9)).toEqual(plans[9]);
    expect(drawnPlan(2, 9)).not.toEqual(plans[9]);
  });

  it("are of every kind: pots, soils, weather and crops", () => {
    const kinds = (read: (typed: Record<string, Record<string, unknown>>) => unknown) =>
      new Set(plans.map(({ typed }) => read(typed as Record<string, Record<string, unknown>>)));
    expect(kinds(({ pot }) => pot!.shape).size).toBe(4);
    expect(kinds(({ soil }) => soil!.kind).size).toBe(4);
    expect(kinds(({ weather }) => weather?.kind)).toEqual(new Set([undefined, "example", "own", "daily"]));
    expect(kinds(({ crop }) => crop!.kind).size).toBe(2);
    expect(kinds(({ units }) => units).size).toBe(2);
  });
});

describe("what must not leave a run", () => {
  const problem = cylinderProblem({ days: [0.1], accuracy: "live" });
  const run = simulateToEnd(problem);

  it("is found: a number that is none, and water above its level", () => {
    expect([...notNumbers({ run }), ...tooWet(problem, run)]).toEqual([]);
    run.frames[0]!.h[3] = Number.NaN;
    expect(notNumbers({ run })).toEqual([{ kind: "not a number", what: "run.frames.0.h.3 is NaN" }]);
    run.frames[0]!.h[3] = 200;
    expect(tooWet(problem, run).map(({ kind }) => kind)).toEqual(["too wet"]);
  });
});

test("a run that never ends, and a thread that breaks, cost their own plan alone", async () => {
  const thread = new URL("./endlessThread.mjs", import.meta.url);
  const tried = await tryPlans(1, [0, 1, 2, 0], () => {}, { thread, giveUpAfter: 0.3 });
  expect(tried.found.map(({ number, kind }) => [number, kind])).toEqual([
    [0, "too long"],
    [1, "too long"],
    [2, "crash"],
    [0, "too long"],
  ]);
  expect(tried).toMatchObject({ plans: 4, refused: 6, runs: 2 });
});

describe("the command", () => {
  it("tries the plan that it is asked for, and prints it", async () => {
    const { code, out } = await inProcess(() => soak(["--seed", "1", "--only", "15"]));
    expect(JSON.parse(out.slice(0, out.indexOf("\n}") + 2))).toEqual(drawnPlan(1, 15).typed);
    expect(out).toMatch(/\n {2}failed +0 plans\n$/);
    expect(code).toBe(0);
  });
});
