import type { GridStore } from "../flow/gridStore.ts";
import type { Problem } from "../flow/problem.ts";
import type { Progress, Run } from "../flow/run.ts";
import { simulate } from "../flow/simulate.ts";

/** A member's run did not come to its end: there is no answer for this one soil, which must not cost the whole ensemble. */
class UnfinishedRun extends Error {}

/** Runs a problem, with a halt after each step in time; throws an UnfinishedRun in words where it does not come to its end. */
export function* finishedRun(problem: Problem, grids: GridStore | undefined): Generator<Progress, Run> {
  const run = yield* simulate(problem, grids && { grids });
  if (run.status !== "finished") throw new UnfinishedRun(runTrouble(run));
  return run;
}

function runTrouble({ status, trouble }: Run): string {
  return trouble ? `${trouble.reason} on day ${trouble.day}` : status;
}

/**
 * The outcome of a course; where one of its runs does not come to its end, what `troubled` makes of the reason. Whatever
 * else is thrown is the program's fault, and no member's.
 */
export function* orTrouble<T>(
  course: Generator<Progress, T>,
  troubled: (trouble: string) => T,
): Generator<Progress, T> {
  try {
    return yield* course;
  } catch (error) {
    if (error instanceof UnfinishedRun) return troubled(error.message);
    throw error;
  }
}
