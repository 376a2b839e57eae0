import { expect, test } from "vitest";
import { weynantsExamples } from "../../model/checks/loadChecks.ts";
import { weynants } from "../../model/soil/weynants.ts";
import { expectClose } from "../support/close.ts";

// Weynants et al. (2009), recomputed: reference-data/checks/weynants.json.
test.each(weynantsExamples().rows)("the soil of $name is that of the equations to every printed digit", (row) => {
  const soil = weynants(row);
  for (const key of ["thetaS", "alpha", "n", "Ks", "l"] as const) {
    const { value, rounding } = row.computed[key];
    expectClose(soil[key], value, { tolerance: rounding, what: key });
  }
  expect(soil.thetaR).toBe(0);
});
