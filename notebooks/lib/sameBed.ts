import type { Plan } from "../../model/index.ts";

/** The same for plans that differ by name, notes or units alone: these change no outcome. */
export const bedKey = (plan: Plan): string => JSON.stringify({ ...plan, name: "", notes: "", units: "" });
