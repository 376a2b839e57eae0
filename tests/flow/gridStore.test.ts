import { expect, it } from "vitest";
import { FINENESS } from "../../model/flow/gridRule.ts";
import { gridStore } from "../../model/flow/gridStore.ts";
import { simulate } from "../../model/flow/simulate.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { cylinder, tapered } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";

const region = { radius: 60, depth: 100 };
const pot = buildPot(cylinder);

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
  const problemOf = (name: string, wallConductivity: number) =>
    cylinderProblem({ soil: classMean(name), pot: { ...cylinder, wallConductivity }, accuracy: "live" });
  const runOf = (options: Parameters<typeof simulate>[1]) => (name: string, wall: number) => {
    const course = simulate(problemOf(name, wall), options);
    for (;;) {
      const { done, value } = course.next();
      if (done) return { ...value, milliseconds: 0 };
    }
  };
  const [shared, alone] = [runOf({ grids }), runOf({})];
  for (const [name, wall] of [
    ["sand", 0.05],
    ["clay", 0.02],
    ["sand", 0.05],
  ] as const)
    expect(shared(name, wall)).toEqual(alone(name, wall));
});

it("runs that take turns do not share a grid", () => {
  const grids = gridStore();
  const problems = ["sand", "clay"].map((name) =>
    cylinderProblem({ soil: classMean(name), accuracy: "live", days: [3] }),
  );
  const courses = problems.map((problem) => simulate(problem, { grids }));
  const ends = [undefined, undefined] as (number | undefined)[];
  while (ends.includes(undefined))
    courses.forEach((course, k) => {
      const { done, value } = course.next();
      if (done && value) ends[k] = value.rows[0]!.seepageLitres;
    });
  problems.forEach((problem, k) => {
    const course = simulate(problem);
    let next = course.next();
    while (!next.done) next = course.next();
    expect(ends[k]).toBe(next.value.rows[0]!.seepageLitres);
  });
});
