/** The page's workers. */
import {
  type MemberQueue,
  type MemberQueueOptions,
  type MemberWorker,
  memberQueue,
  type WorkerEvents,
} from "./memberQueue.ts";
import type { WorkerName } from "./worker.ts";
import PageWorker from "./worker.ts?worker&inline";

const startWorker = (name: WorkerName) => new PageWorker({ name });

export const runsWorker = () => startWorker("runs");

/** More would draw power and memory without a person noticing. */
const MOST_WORKERS = 8;

/** As many workers for ensembles as the machine has processors, up to eight; none before an ensemble is needed. */
export function pageQueue(options: Pick<MemberQueueOptions, "onProgress">): MemberQueue {
  return memberQueue({
    ...options,
    workers: Math.min(navigator.hardwareConcurrency, MOST_WORKERS),
    start: startMemberWorker,
    now: () => performance.now(),
    later: setTimeout,
  });
}

function startMemberWorker({ replied, broke }: WorkerEvents): MemberWorker {
  const worker = startWorker("members");
  worker.onmessage = ({ data }) => replied(data);
  worker.onerror = ({ message }) => broke(message);
  return { post: (order) => worker.postMessage(order), end: () => worker.terminate() };
}
