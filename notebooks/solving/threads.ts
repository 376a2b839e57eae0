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
import { memberWork } from "./memberWork.ts";

interface ThreadOptions extends Pick<MemberQueueOptions, "onlyDone" | "onProgress"> {
  /** What a thread runs. */
  file?: URL;
  /** This thread and the others. */
  workers?: number;
}

/**
 * As many workers as there are processors; `end` ends them, and before it the process does not. The first is this thread,
 * between whatever else it does: its code is fast already where it has worked out a run before.
 */
export function threadQueue({
  file = new URL("./memberThread.mjs", import.meta.url),
  workers = availableParallelism(),
  ...options
}: ThreadOptions = {}): MemberQueue {
  return memberQueue({
    ...options,
    workers,
    start: (events, isFirst) => (isFirst ? thisThread(events) : startThread(file, events)),
    now: () => performance.now(),
    later: setTimeout,
  });
}

/** Replies come after the queue's own work, as those of a thread do. */
function thisThread({ replied }: WorkerEvents): MemberWorker {
  const receive = memberWork({
    reply: (reply) => void setImmediate(replied, reply),
    afterListening: setImmediate,
    now: () => performance.now(),
  });
  return { post: receive, end: () => receive({ kind: "giveBack", isUseless: true }) };
}

function startThread(file: URL, { replied, broke }: WorkerEvents): MemberWorker {
  const thread = new Worker(file);
  thread.on("message", replied);
  thread.on("error", (error) => broke(String(error)));
  thread.on("exit", (code) => broke(`it ended with code ${code}`));
  return { post: (order) => thread.postMessage(order), end: () => void thread.terminate() };
}
