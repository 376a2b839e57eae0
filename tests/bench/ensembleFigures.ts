/** Times an ensemble in threads, from the ask to the first members and to the last. */
import { availableParallelism } from "node:os";
import {
  drawMembers,
  ensembleSowingDay,
  planToProblem,
  resolvePlan,
  SOIL_GROUPS,
  simulateToEnd,
  soundValue,
} from "../../model/index.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import type { Gathered } from "../../notebooks/lib/cells.ts";
import { threadQueue } from "../../notebooks/lib/threads.ts";

const MEMBERS = 200;

export interface EnsembleFigures {
  members: number;
  threads: number;
  firstMilliseconds: number;
  allMilliseconds: number;
  failed: number;
}

/** The first band is there with the first ten members. Starting the threads counts. */
export async function ensembleFigures(tell: (what: string) => void): Promise<EnsembleFigures> {
  const plan = soundValue(resolvePlan(demoPlan));
  const sowingDay = ensembleSowingDay(plan, simulateToEnd(planToProblem(plan)));
  const members = drawMembers(plan, { count: MEMBERS, seed: 1, varied: SOIL_GROUPS });
  const queue = threadQueue();
  const start = performance.now();
  let firstMilliseconds = 0;
  try {
    const { outcomes } = await new Promise<Gathered<unknown>>((finish, fail) =>
      queue.ask(
        0,
        { of: null, plan, members, sowingDay },
        {
          deliver(gathered) {
            firstMilliseconds ||= performance.now() - start;
            tell(`ensemble: ${gathered.outcomes.length} of ${MEMBERS}`);
            if (gathered.isDone) finish(gathered);
          },
          fail,
        },
      ),
    );
    return {
      members: MEMBERS,
      threads: availableParallelism(),
      firstMilliseconds,
      allMilliseconds: performance.now() - start,
      failed: outcomes.filter(({ trouble }) => trouble !== null).length,
    };
  } finally {
    queue.end();
  }
}
