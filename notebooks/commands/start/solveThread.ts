/** A thread of the start command: a flow problem in, word of its progress and at last its run out. */
import { parentPort } from "node:worker_threads";
import type { Problem } from "../../../model/flow/problem.ts";
import type { Progress, Run } from "../../../model/flow/run.ts";
import { simulate } from "../../../model/flow/simulate.ts";

export type Reply = { kind: "progress"; progress: Progress } | { kind: "run"; run: Run };

/** ms; a person reads no faster. */
const TELL_EVERY = 100;

const reply = (message: Reply) => parentPort?.postMessage(message);

parentPort?.on("message", (problem: Problem) => {
  const course = simulate(problem);
  let told = performance.now();
  for (let next = course.next(); ; next = course.next()) {
    if (next.done) return reply({ kind: "run", run: next.value });
    if (performance.now() - told < TELL_EVERY) continue;
    told = performance.now();
    reply({ kind: "progress", progress: next.value });
  }
});
