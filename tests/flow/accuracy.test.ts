/** What `live` may be off by, against known answers; `accuracy.deep.test.ts` has every soil, start, filling and pot. */
import { describe, it } from "vitest";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { errorsOf, knownAnswers } from "../support/errors.ts";
import { knownProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";
import { expectWithin } from "../support/within.ts";

describe("the live setting", () => {
  it.each(buriedCylinder().rows)("is within its bounds of the known answers: $name", (known) => {
    const run = runToEnd({ ...knownProblem(known), accuracy: "live" });
    expectWithin(errorsOf(run, knownAnswers(known)), "live", known.name);
  });
});
