/** Flow problems solved side by side, in threads. */
import { on, once } from "node:events";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { Problem, Progress, Run } from "../../../model/public/flow.ts";
import type { Reply } from "./solveThread.ts";

/** Solves a problem in the next free thread, first come, first served. */
export type Solve = (problem: Problem, tell: (progress: Progress) => void) => Promise<Run>;

/** No more problems than this are ever asked for at once. */
const MOST_THREADS = 4;

export interface SolverThreads {
  solve: Solve;
  end(): void;
}

/** As many threads as there are processors; until `end` the process does not end. */
export function solverThreads(): SolverThreads {
  const count = Math.min(availableParallelism(), MOST_THREADS);
  const threads = Array.from({ length: count }, () => new Worker(new URL("./solveThread.mjs", import.meta.url)));
  const free = [...threads];
  const waiting: ((thread: Worker) => void)[] = [];
  const claim = () => new Promise<Worker>
}
