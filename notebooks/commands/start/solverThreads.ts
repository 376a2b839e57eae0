/** Flow problems solved side by side, in threads. */
import { on } from "node:events";
import { availableParallelism } from "node:os";
import { setImmediate } from "node:timers/promises";
import { Worker } from "node:worker_threads";
import type { Problem, Progress, Run } from "../../../model/public/flow.ts";
import type { Reply } from "./solveThread.ts";

/** Solves a problem in the next free thread, first come, first served. */
export type Solve = (problem: Problem, tell: (progress: Progress) => void) => Promise<Run>;

/** No more problems than this are ever asked for at once. */
const MOST_SOLVERS = 4;

export interface SolverThreads {
  solve: Solve;
  end(): void;
}

/**
 * As many solvers as there are processors. The first is this thread, which has nothing else to do, the others are threads;
 * before `end` the process does not end.
 */
export function solverThreads(): SolverThreads {
  const count = Math.min(availableParallelism(), MOST_SOLVERS) - 1;
  const threads = Array.from({ length: count }, () => new Worker(new URL("./solveThread.mjs", import.meta.url)));
  const free: Solve[] = [solvedHere, ...threads.map(solvedBy)];
  const waiting: ((solver: Solve) => void)[] = [];
  const claim = async () => free.shift() ?? new Promise<Solve>((give) => waiting.push(give));
  const release = (solver: Solve) => {
    const next = waiting.shift();
    if (next) next(solver);
    else free.push(solver);
  };
  const solve: Solve = async (problem, tell) => {
    const solver = await claim();
    try {
      return await solver(problem, tell);
    } finally {
      release(solver);
    }
  };
  return { solve, end: () => threads.map((thread) => thread.terminate()) };
}

/** Between two steps the process hears Ctrl-C, and what the threads say. The model is loaded when the threads have begun. */
const solvedHere: Solve = async (problem, tell) => {
  const { simulate } = await import("../../../model/public/flow.ts");
  const course = simulate(problem);
  for (let next = course.next(); ; next = course.next()) {
    if (next.done) return next.value;
    tell(next.value);
    await setImmediate();
  }
};

const solvedBy =
  (thread: Worker): Solve =>
  async (problem, tell) => {
    thread.postMessage(problem);
    for await (const [reply] of on(thread, "message") as AsyncIterable<[Reply]>) {
      if (reply.kind === "run") return reply.run;
      tell(reply.progress);
    }
    throw new Error("A thread fell silent.");
  };
