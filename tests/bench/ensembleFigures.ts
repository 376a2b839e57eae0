/** Times an ensemble of a plan in threads, from the ask to the first members and to the last. */
import { availableParallelism } from "node:os";
import { drawMembers, ensembleSowingDay, SOIL_GROUPS } from "../../model/public/ensemble.ts";
import { planToProblem, simulateToEnd } from "../../model/public/flow.ts";
import type { Plan } from "../../model/public/plan.ts";
import type { EnsembleOutcomes } from "../../notebooks/runtime/cells.ts";
import type { threadQueue } from "../../notebooks/solving/threads.ts";

export const MEMBERS = 200;

export interface EnsembleFigures {
  members: number;
  threads: number;
  firstMilliseconds: number;
  allMilliseconds: number;
  failed: number;
}

/**
 * As in the product, the threads get ready while the plan's own run at the quick setting is worked out, which tells the
 * sowing day: both count.
 */
export async function ensembleFigures(plan: Plan, queue: ReturnType<typeof threadQueue>): Promise<EnsembleFigures> {
  const start = performance.now();
  queue.prepare();
  const sowingDay = ensembleSowingDay(plan, simulateToEnd(planToProblem(plan, { accuracy: "live" })));
  const members = drawMembers(plan, { count: MEMBERS, seed: 1, varied: SOIL_GROUPS });
  let firstMilliseconds = 0;
  const { outcomes } = await new Promise<EnsembleOutcomes<unknown>>((finish, fail) => {
    const deliver = (gathered: EnsembleOutcomes<unknown>) => {
      if (gathered.outcomes.length > 0) firstMilliseconds ||= performance.now() - start;
      if (gathered.isDone) finish(gathered);
    };
    queue.ask(0, { of: null, plan, members, task: { kind: "sowing", sowingDay } }, { deliver, fail });
  });
  return {
    members: MEMBERS,
    threads: availableParallelism(),
    firstMilliseconds,
    allMilliseconds: performance.now() - start,
    failed: outcomes.filter(({ trouble }) => trouble !== null).length,
  };
}
