import { expect, it } from "vitest";
import type { Problem } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { expectClose } from "../support/close.ts";
import { cylinder, jar, tapered } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const settings = (settings: readonly Problem["accuracy"][], changes: Partial<Problem>) =>
  settings.map((accuracy) => runToEnd(cylinderProblem({ ...changes, accuracy })));

function expectAlike(run: Run, reference: Run, tolerance: number, what: string) {
  run.rows.forEach(({ day, seepageLitres }, k) => {
    const expected = reference.rows[k]!.seepageLitres;
    expectClose(seepageLitres, expected, { tolerance, relative: true, unit: "L", what: `${what}, day ${day}` });
  });
}

it("a leaky pot in clay, with the long straight end of K, gives within 1 % of what it gives with the short one", () => {
  const pot = { ...cylinder, wallConductivity: 0.11, wallThickness: 1.26 };
  const leaky = { soil: classMean("clay"), pot, region: { radius: 100, depth: 150 }, days: [3, 14] };
  const [standard, reference] = settings(["standard", "reference"], leaky);
  expect(Math.max(...reference!.frames.map(({ h }) => Math.max(...h)))).toBeGreaterThan(0);
  expectAlike(standard!, reference!, 0.01, "standard against reference");
});

it.each([tapered, jar])(
  "a $shape pot gives on a grid that cuts it within 1.5 % of what it gives on a fine one",
  (pot) => {
    const [live, reference] = settings(["live", "reference"], { pot, days: [0.5, 2] });
    expectAlike(live!, reference!, 0.015, `${pot.shape}, live against reference`);
  },
);
