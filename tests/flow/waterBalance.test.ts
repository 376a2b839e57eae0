import { expect, it } from "vitest";
import type { Assembly } from "../../model/flow/assembly.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import type { FlowState } from "../../model/flow/timeStep.ts";
import { waterBalance } from "../../model/flow/waterBalance.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";

/** Error of the balance of 1000 cm³ of ground that holds `change` cm³ more than its 200, after `entered` came in. */
function errorOf(change: number, entered: number): number {
  const theta = Float64Array.of(0.2);
  const boundaries = [{ name: "wall", isFromPot: true }];
  const balance = waterBalance({
    mesh: { V: Float64Array.of(1000) },
    kernel: { cells: { theta } },
    boundaries,
  } as unknown as Assembly);
  theta[0]! += change / 1000;
  return balance.errorAt({ entered: Float64Array.of(entered) } as unknown as FlowState);
}

it("is off by the share of what moved that is missing", () => {
  expect(errorOf(1, 2)).toBeCloseTo(0.5, 9);
  expect(errorOf(-3, -4)).toBeCloseTo(0.25, 9);
  expect(errorOf(1, 1)).toBeCloseTo(0, 9);
});

it("counts what is missing against a millionth of the water in the ground where less than that moved", () => {
  expect(errorOf(0, 1e-12)).toBeCloseTo(1e-12 / 200e-6, 12);
  expect(errorOf(0, 1e-3)).toBeCloseTo(1, 9);
});

it.each([
  ["sand", -15_000],
  ["sandy clay", -1e6],
  ["clay", -1e5],
])("closes in %s that starts at %f cm, about a wall that passes nothing", (soil, startHead) => {
  const { pot } = cylinderProblem();
  const tight = { ...pot, wallConductivity: 0 };
  const run = simulateToEnd(cylinderProblem({ soil: classMean(soil), pot: tight, startHead, days: [7] }));
  expect(run.status).toBe("finished");
  expect(run.balanceError).toBeLessThan(1e-6);
});
