/**
 * The settings against each other: what `live` and `standard` may be off by, on a sample of soils, starts, fillings and
 * pots. `npm run bench` goes through more of them, with `-- --all` through every one.
 */
import { describe, expect, it } from "vitest";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { ALLOWED_ERROR } from "../../model/flow/gridRule.ts";
import { type Errors, errorsOf, isWithin, knownAnswers } from "../support/errors.ts";
import { knownProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";
import { sweepCases } from "../support/sweep.ts";

function expectWithin(errors: Errors, accuracy: "live" | "standard", what: string) {
  const text = Object.entries(errors).map(([name, error]) => `${name} ${(100 * error).toFixed(2)} %`);
  const line = `${what}, ${accuracy}: off by ${text.join(", ")}`;
  console.info(line);
  expect(isWithin(errors, ALLOWED_ERROR[accuracy]), line).toBe(true);
}

describe("the live setting", () => {
  it.each(buriedCylinder().rows)("is within its bounds of the known answers: $name", (known) => {
    const run = runToEnd({ ...knownProblem(known), accuracy: "live" });
    expectWithin(errorsOf(run, knownAnswers(known)), "live", known.name);
  });
});

describe("live and standard", () => {
  /** Every fifth: each start, filling and pot comes up. */
  const cases = sweepCases().filter((_, k) => k % 5 === 0);

  it.each(cases)("are within their bounds of the reference: $name", { timeout: 120_000 }, ({ name, problem }) => {
    const reference = runToEnd({ ...problem, accuracy: "reference" });
    for (const accuracy of ["live", "standard"] as const)
      expectWithin(errorsOf(runToEnd({ ...problem, accuracy }), reference), accuracy, name);
  });
});
