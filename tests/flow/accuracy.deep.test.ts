/** What `live` and `standard` may be off by: every soil, start, filling and pot against the reference setting. */
import { it } from "vitest";
import { errorsOf } from "../support/errors.ts";
import { runToEnd } from "../support/runs.ts";
import { allCases } from "../support/sweep.ts";
import { expectWithin } from "../support/within.ts";

it.each(allCases())("live and standard are within their bounds of the reference: $name", ({ name, problem }) => {
  const reference = runToEnd({ ...problem, accuracy: "reference" });
  for (const accuracy of ["live", "standard"] as const)
    expectWithin(errorsOf(runToEnd({ ...problem, accuracy }), reference), accuracy, name);
});
