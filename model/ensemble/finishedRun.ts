import type { GridStore } from "../flow/gridStore.ts";
import type { Problem } from "../flow/problem.ts";
import type { Progress, Run } from "../flow/run.ts";
import { simulate } from "../flow/simulate.ts";

/** Runs a problem, with a halt after each step in time; throws an Error in words where it does not come to its end. */
export function* finishedRun(problem: Problem, grids: GridStore | undefined): Generator<Progress, Run> {
  const run = yield* simulate(problem, grids && { grids });
  if (run.status !== "finished") throw new Error(runTrouble(run));
  return run;
}

function runTrouble({ status, trouble }: Run): string {
  return trouble ? `${trouble.reason} on day ${trouble.day}` : status;
}

/** What went wrong, in words. */
export const troubleWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));
