import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { drawMembers, memberPlan } from "../../../model/public/ensemble.ts";
import { type Problem, planToProblem, simulateToEnd } from "../../../model/public/flow.ts";
import { type Plan, type PlanInput, resolvePlan } from "../../../model/public/plan.ts";
import { soilAnswers } from "../../../notebooks/commands/start/answers.ts";
import { statusLine } from "../../../notebooks/commands/terminal.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { inSoil, isCompared } from "../../../notebooks/notebook/comparedSoils.ts";
import { evaluate } from "../../../notebooks/notebook/evaluate.ts";
import { notebook as spread } from "../../../notebooks/questions/how-far-does-water-spread/notebook.ts";
import { notebook as sowing } from "../../../notebooks/questions/where-do-i-sow/notebook.ts";
import { notebook as race } from "../../../notebooks/questions/why-does-soil-matter/notebook.ts";
import { directSolver } from "../../../notebooks/solving/solvers.ts";
import { soilName } from "../../../notebooks/words/planWords.ts";
import { blocksOf, tableOf } from "../../support/pageParts.ts";

const solver = directSolver({ accuracy: "live" });

const planOf = (changes: Partial<PlanInput> = {}): Plan =>
  soundValue(resolvePlan({ ...demoPlan, soil: { kind: "class", name: "clay" }, ...changes }));

const mixed = planOf({ bedMix: { kind: "class", name: "sandy loam", depth: 12 } });

const shown = (notebook: typeof spread, plan: Plan) => evaluate(notebook, { plan, units: "us", view: {} }, solver);

describe("a bed mix over clay", () => {
  it("is named with its depth, in the plan's unit", () => {
    const parameters = { thetaR: 0.05, thetaS: 0.5, alpha: 0.03, n: 1.6, Ks: 200 };
    const own = { kind: "own", ...parameters } as const;
    expect(soilName(mixed)).toBe("sandy loam (12 in) over clay");
    expect(soilName({ ...mixed, units: "metric" })).toBe("sandy loam (30 cm) over clay");
    expect(soilName(planOf({ soil: own, bedMix: { ...own, depth: 12 } }))).toBe("mix (12 in) over native soil");
    expect(soilName(planOf())).toBe("clay");
  });

  it("is not one of the compared soils, and these are even ground", () => {
    expect([isCompared(mixed), isCompared(planOf())]).toEqual([false, true]);
    expect(planToProblem(inSoil(mixed, "clay"))).toEqual(planToProblem(planOf()));
  });

  it("stays as it is while the native soil is drawn by chance", () => {
    const members = drawMembers(mixed, { count: 3, seed: 1, varied: ["conductivity", "retention"] });
    const problems = members.map((member) => planToProblem(memberPlan(mixed, member)));
    expect(new Set(problems.map(({ soil }) => soil.Ks)).size).toBe(3);
    for (const { topLayer } of problems) expect(topLayer).toEqual(planToProblem(mixed).topLayer);
  });

  it("stands beside even sand, loam and clay where water spreads", async () => {
    const page = await shown(spread, mixed);
    const columns = tableOf(page, "wetted-radius").columns.map(({ heading }) => heading);
    expect(columns).toEqual(["day", "sand", "loam", "clay", "your sandy loam (12 in) over clay"]);
    expect(page.answer).toContain("In your sandy loam (12 in) over clay, ");
    expect(blocksOf(page).filter((block) => typeof block === "string")).toContainEqual(
      expect.stringMatching(
        /^On top of it, 12 in \(30 cm\) deep, lies the bed mix\. The mean of all soils called sandy loam/,
      ),
    );
    const even = await shown(spread, planOf());
    const clay = (rows: (number | string)[][]) => rows.map((row) => row[3]);
    expect(clay(tableOf(page, "wetted-radius").rows)).toEqual(clay(tableOf(even, "wetted-radius").rows));
  });

  it("stands beside even sand, loam and clay where seeds go, and soaked passes what the mix passes", async () => {
    const page = await shown(sowing, mixed);
    const soils = tableOf(page, "sowing-bands").rows.map(([name]) => name);
    expect(soils).toEqual(["your sandy loam (12 in) over clay", "sand", "loam", "clay"]);
    // Sandy loam, Carsel & Parrish (1988): Ks 106.1 cm/day = 41.8 in/day.
    expect(blocksOf(page)).toContainEqual(expect.stringContaining("passes 42 in/day when soaked"));
  });

  it("takes no part in the race of soils", async () => {
    expect((await shown(race, mixed)).answer).toBe((await shown(race, planOf())).answer);
  }, 60_000);

  it("is another soil beside even clay in the terminal", async () => {
    const solve = async (problem: Problem) => simulateToEnd(problem);
    const answers = await soilAnswers({ ...mixed, days: 1, sowingDay: 0 }, solve, statusLine(process.stderr));
    expect(answers.map(({ name }) => name)).toEqual(["sand", "loam", "clay", "your soil"]);
  }, 60_000);
});
