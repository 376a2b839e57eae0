import type { Plan } from "../../model/public/plan.ts";
import type { UnitSystem } from "../../model/public/units.ts";
import { source } from "./cells.ts";

/** The person's plan, checked and with nothing left open; the same in every notebook. */
export const plan = source<Plan>("plan");

/** The unit system the person reads and types in. */
export const units = source<UnitSystem>("units");
