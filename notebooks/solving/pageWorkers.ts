/** The page's workers. */
import {
  type MemberOrder,
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

/**
 * As many workers for ensembles as the machine has processors, up to eight; none before an ensemble is needed. The first
 * is the one for runs: it rests while members are solved, and its code is fast already.
 */
export function pageQueue(runs: Worker, options: Pick<MemberQueueOptions, "onProgress">): MemberQueue {
  return memberQueue({
    ...options,
    workers: Math.min(navigator.hardwareConcurrency, MOST_WORKERS),
    start: (events, isFirst) => (isFirst ? membersIn(runs, events) : startMemberWorker(events)),
    now: () => performance.now(),
    later: setTimeout,
  });
}

function membersIn(runs: Worker, { replied, broke }: WorkerEvents): MemberWorker {
  const { port1, port2 } = new MessageChannel();
  const tellBroken = ({ message }: ErrorEvent) => broke(message);
  port1.onmessage = ({ data }) => replied(data);
  runs.addEventListener("error", tellBroken);
  runs.postMessage({ kind: "members" }, [port2]);
  const post = (order: MemberOrder) => port1.postMessage(order);
  return {
    post,
    end() {
      post({ kind: "giveBack", isUseless: true });
      port1.close();
      runs.removeEventListener("error", tellBroken);
    },
  };
}

function startMemberWorker({ replied, broke }: WorkerEvents): MemberWorker {
  const worker = startWorker("members");
  worker.onmessage = ({ data }) => replied(data);
  worker.onerror = ({ message }) => broke(message);
  return { post: (order) => worker.postMessage(order), end: () => worker.terminate() };
}
