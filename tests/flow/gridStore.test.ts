import { expect, it } from "vitest";
import { FINENESS } from "../../model/flow/gridRule.ts";
import { type Grid, type GridStore, gridStore } from "../../model/flow/gridStore.ts";
import type { Problem } from "../../model/flow/problem.ts";
import { simulate, simulateToEnd } from "../../model/flow/simulate.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { cylinder, tapered } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";

const region = { radius: 60, depth: 100 };
const pot = buildPot(cylinder);
const liveProblem = (name: string, changes: Partial<Problem>) =>
  cylinderProblem({ soil: classMean(name), accuracy: "live", ...changes });

it("a grid given back is lent again for the same pot, region and fineness, to one run at a time", () => {
  const grids = gridStore();
  const first = grids.take(pot, region, FINENESS.live);
  expect(grids.take(pot, region, FINENESS.live)).not.toBe(first);
  grids.giveBack(first);
  expect(grids.take(buildPot(tapered), region, FINENESS.live)).not.toBe(first);
  expect(grids.take(pot, { ...region, depth: 101 }, FINENESS.live)).not.toBe(first);
  expect(grids.take(pot, region, FINENESS.standard)).not.toBe(first);
  expect(grids.take(pot, region, FINENESS.live)).toBe(first);
});

// A denser wall has the same grid; the runs in between leave their factors in it.
it("a run on a grid that other runs have used is the same to the last digit", () => {
  const grids = gridStore();
  for (const [name, wallConductivity] of [
    ["sand", 0.05],
    ["clay", 0.02],
    ["sand", 0.05],
  ] as const) {
    const problem = liveProblem(name, { pot: { ...cylinder, wallConductivity } });
    const [shared, alone] = [simulateToEnd(problem, undefined, { grids }), simulateToEnd(problem)];
    expect({ ...shared, milliseconds: 0 }).toEqual({ ...alone, milliseconds: 0 });
  }
});

it.each([
  [
    "leaves a run early",
    (grids: GridStore) => {
      for (const { step } of simulate(liveProblem("sand", {}), { grids })) if (step === 3) break;
    },
  ],
  [
    "fails in the midst of a run",
    (grids: GridStore) => {
      const course = simulate(liveProblem("sand", {}), { grids });
      course.next();
      expect(() => course.throw(new Error("of the caller"))).toThrow("of the caller");
    },
  ],
  [
    "stops it",
    (grids: GridStore) => {
      const course = simulate(liveProblem("sand", {}), { grids });
      course.next();
      course.next("stop");
    },
  ],
])("a caller that %s leaves the grid to the next run", (_, leave) => {
  const lent: Grid[] = [];
  const store = gridStore();
  const grids: GridStore = {
    ...store,
    take(...asked) {
      const grid = store.take(...asked);
      lent.push(grid);
      return grid;
    },
  };
  leave(grids);
  const [again, alone] = [
    simulateToEnd(liveProblem("clay", {}), undefined, { grids }),
    simulateToEnd(liveProblem("clay", {})),
  ];
  expect(lent[1]).toBe(lent[0]);
  expect(again.rows).toEqual(alone.rows);
});

it("runs that take turns do not share a grid", () => {
  const grids = gridStore();
  const problems = ["sand", "clay"].map((name) => liveProblem(name, { days: [3] }));
  const courses = problems.map((problem) => simulate(problem, { grids }));
  const given: number[] = [];
  while (Object.keys(given).length < courses.length)
    courses.forEach((course, k) => {
      const { done, value } = course.next();
      if (done && value) given[k] = value.rows[0]!.seepageLitres;
    });
  expect(given).toEqual(problems.map((problem) => simulateToEnd(problem).rows[0]!.seepageLitres));
});
