import { test } from "vitest";
import { saxtonRawlsExamples } from "../../model/checks/loadChecks.ts";
import { saxtonRawls } from "../../model/soil/saxtonRawls.ts";
import { expectClose } from "../support/close.ts";

// Saxton & Rawls (2006), Table 3, organic matter 2.5 %: reference-data/checks/saxton-rawls.json.
test.each(saxtonRawlsExamples().rows)("$name holds and passes water as the paper's table says", (row) => {
  const soil = saxtonRawls({ sand: row.sand, clay: row.clay, organicMatter: 2.5 });
  const percents = {
    wiltingPointPercent: 100 * soil.wiltingPoint,
    fieldCapacityPercent: 100 * soil.fieldCapacity,
    saturationPercent: 100 * soil.saturation,
  };
  const KsMmPerHour = soil.Ks / 2.4;
  const { computed, printed } = row;
  for (const key of ["wiltingPointPercent", "fieldCapacityPercent", "saturationPercent"] as const) {
    expectClose(percents[key], computed[key].value, { tolerance: computed[key].rounding, unit: "%v", what: key });
    expectClose(percents[key], printed[key], { tolerance: 0.5, unit: "%v", what: `${key}, as printed` });
  }
  const { value, rounding } = computed.KsMmPerHour;
  expectClose(KsMmPerHour, value, { tolerance: rounding, unit: "mm/h", what: "Ks" });
  expectClose(KsMmPerHour, printed.KsMmPerHour, { tolerance: 0.05, unit: "mm/h", what: "Ks, as printed" });
});
