import { expect, test } from "vitest";
import { haverkamp } from "../../model/checks/haverkamp.ts";
import { haverkampSoils } from "../../model/checks/loadChecks.ts";
import { expectClose } from "../support/close.ts";

// Haverkamp et al. (1977): reference-data/checks/haverkamp.json.
test.each(haverkampSoils().rows)("the $name has the water contents and conductivity known of it", (row) => {
  const { KsCmPerHour, ...parameters } = row.parameters;
  const soil = haverkamp({ ...parameters, Ks: 24 * KsCmPerHour });
  expect(row.theta.length).toBeGreaterThan(0);
  for (const { h, value, rounding } of row.theta) {
    expectClose(soil.theta(h), value, { tolerance: rounding, unit: "cm³/cm³", what: `θ(${h})` });
  }
  for (const { h, value, rounding } of row.K) {
    expectClose(soil.K(h) / 24, value, { tolerance: rounding, unit: "cm/h", what: `K(${h})` });
  }
});
