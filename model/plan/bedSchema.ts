/** The parts of the plan that tell of a bed seen from above: its outline, and where its pots and plants stand. */
import { z } from "zod";
import { POT_GRIDS } from "../bed/potGrid.ts";
import { quantityField } from "../input/fields.ts";
import type { UnitSystem } from "../units/units.ts";

/** All of it may be left out. */
export function bedFields(units: UnitSystem) {
  return {
    spacing: quantityField("pot spacing", "length", units, { min: 20, max: 400 }).optional(),
    potGrid: z.enum(POT_GRIDS).meta({ title: "pot grid" }).default("square"),
  };
}
