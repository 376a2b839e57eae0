import { PLAN_ROWS } from "./planRows.ts";
import { inputsOf } from "./rowWalk.ts";

/** Every input of the saved plan, in the plan's order. */
export const PLAN_INPUTS = inputsOf(PLAN_ROWS);
