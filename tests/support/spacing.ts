import { searchSpacing } from "../../model/advice/pot/spacing.ts";
import type { Accuracy } from "../../model/flow/problem.ts";
import type { Plan } from "../../model/plan/plan.ts";
import { runToEnd } from "./runs.ts";

/** Share by which the spacing that live runs find may differ from that of standard ones. */
export const SPACING_ALLOWED = 0.01;

/** The largest spacing that a search finds when each of its runs is of one accuracy, cm. */
export function foundSpacing(plan: Plan, accuracy: Accuracy): number {
  const search = searchSpacing(plan);
  let next = search.next();
  while (!next.done) next = search.next(runToEnd({ ...next.value, accuracy }));
  return next.value.spacing;
}
