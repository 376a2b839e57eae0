import { test } from "vitest";
import { classValues } from "../../model/checks/loadChecks.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { rowNamed, textureClasses } from "../../reference-data/load.ts";
import { expectClose } from "../support/close.ts";

// Carsel & Parrish (1988) means in the equations of van Genuchten (1980): reference-data/checks/class-values.json.
test.each(classValues().rows)("θ, K and φ(0) of $name are the tabled ones to every printed digit", (row) => {
  const soil = vanGenuchten(rowNamed(textureClasses(), row.name).mean);
  for (const { h, value, rounding } of row.theta) {
    expectClose(soil.theta(h), value, { tolerance: rounding, unit: "cm³/cm³", what: `θ(${h})` });
  }
  for (const { h, value, rounding } of row.K) {
    expectClose(soil.K(h), value, { tolerance: rounding, unit: "cm/day", what: `K(${h})` });
  }
  const { phi0, capillaryLength } = row;
  expectClose(soil.phi(0), phi0.value, { tolerance: phi0.rounding, unit: "cm²/day", what: "φ(0)" });
  const length = soil.phi(0) / soil.Ks;
  expectClose(length, capillaryLength.value, { tolerance: capillaryLength.rounding, unit: "cm", what: "φ(0)/Ks" });
});
