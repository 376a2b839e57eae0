import { z } from "zod";
import type { UnitSystem } from "../../units/units.ts";
import { PLAN_ROWS } from "./planRows.ts";
import { shapeOf } from "./rowSchema.ts";

const planIn = (units: UnitSystem) => z.strictObject(shapeOf(PLAN_ROWS, units)).meta({ title: "plan" });

/** The saved plan as a person types it (`planRows.ts`), by unit system. */
export const PLAN_SCHEMAS = { metric: planIn("metric"), us: planIn("us") };

/** Both unit systems in one, for export. */
export const planSchema = z
  .discriminatedUnion("units", [PLAN_SCHEMAS.metric, PLAN_SCHEMAS.us])
  .meta({ title: "plan", description: "One bed with one kind of pot, as a person typed it" });

export type PlanInput = z.input<typeof planSchema>;
export type CheckedPlan = z.output<typeof planSchema>;
