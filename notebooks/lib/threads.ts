/** Ensembles outside a page: members are solved in threads. */
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import {
  type MemberQueue,
  type MemberQueueOptions,
  type MemberWorker,
  memberQueue,
  type WorkerEvents,
} from "./memberQueue.ts";

interface ThreadOptions extends Pick<MemberQueueOptions, "onlyDone" | "onProgress"> {
  /** What a thread runs. */
  file?: URL;
}

/** As many threads as there are processors; `end` ends them, and before it the process does not. */
export function threadQueue({
  file = new URL("./memberThread.mjs", import.meta.url),
  ...options
}: ThreadOptions = {}): MemberQueue {
  return memberQueue({
    ...options,
    workers: availableParallelism(),
    start: (events) => startThread(file, events),
    now: () => performance.now(),
    later: setTimeout,
  });
}

function startThread(file: URL, { replied, broke }: WorkerEvents): MemberWorker {
  const thread = new Worker(file);
  thread.on("message", replied);
  thread.on("error", (error) => broke(String(error)));
  thread.on("exit", (code) => broke(`it ended with code ${code}`));
  return { post: (order) => thread.postMessage(order), end: () => void thread.terminate() };
}
