/**
 * Decides what to solve next while a person moves a slider. For each rank:
 *
 * - a coarse ("live") solution comes first, then, unless that is enough, the "standard" one the answer is based on;
 * - a coarse solution that has begun is finished even when a newer ask has come: stopping it at every movement would
 *   leave the picture still for as long as the slider moves;
 * - of the asks that come meanwhile only the newest is kept;
 * - a standard solution is dropped as soon as its settings are out of date.
 *
 * Coarse solutions of every rank go before standard ones; lower ranks go before higher ones, so that the main picture
 * follows the slider whatever else is to be solved.
 */
import type { Problem, Progress, Run } from "../../model/public/flow.ts";

export type Simulate = (problem: Problem) => Generator<Progress, Run, "stop" | undefined>;

export interface Order {
  rank: number;
  id: number;
  problems: Readonly<Record<string, Problem>>;
  isCoarseEnough: boolean;
}

export type Delivery = {
  rank: number;
  id: number;
  accuracy: "live" | "standard";
} & Solution;

/** Or why the program failed on it. */
type Solution = { runs: Record<string, Run> } | { failed: string };

interface Job {
  order: Order;
  accuracy: "live" | "standard";
  left: [string, Problem][];
  running?: Running | undefined;
  runs: Record<string, Run>;
}

interface Running {
  name: string;
  memory: string;
  generator: ReturnType<Simulate>;
}

interface Line {
  job?: Job;
  waiting?: Order;
}

export interface QueueOptions {
  simulate: Simulate;
  deliver(delivery: Delivery): void;
  now(): number;
  /** Number of runs kept, so that a slider moved back answers at once. */
  remembered?: number;
}

export interface SolveQueue {
  ask(order: Order): void;
  /** Solves for about `milliseconds`; true while work is left. */
  work(milliseconds: number): boolean;
}

export function solveQueue({ simulate, deliver, now, remembered = 24 }: QueueOptions): SolveQueue {
  const lines = new Map<number, Line>();
  const memory = new Map<string, Run>();

  function remember(key: string, run: Run) {
    memory.set(key, run);
    const [oldest = key] = memory.keys();
    if (memory.size > remembered) memory.delete(oldest);
  }

  function ask(order: Order) {
    const line = lines.get(order.rank);
    if (line?.job?.accuracy === "live") line.waiting = order;
    else lines.set(order.rank, { job: newJob(order, "live") });
  }

  function nextLine() {
    const all = [...lines.entries()].sort(([a], [b]) => a - b).flatMap(([, line]) => (line.job ? [line] : []));
    return all.find((line) => line.job?.accuracy === "live") ?? all[0];
  }

  function advance(line: Line, job: Job) {
    try {
      step(job);
      if (isDone(job)) finish(line, job, { runs: job.runs });
    } catch (error) {
      finish(line, job, { failed: String(error) });
    }
  }

  function finish({ waiting }: Line, job: Job, solution: Solution) {
    const { rank, id } = job.order;
    deliver({ rank, id, accuracy: job.accuracy, ...solution });
    const finer = "failed" in solution ? undefined : standardAfter(job);
    const next = waiting ? newJob(waiting, "live") : finer;
    lines.set(rank, next ? { job: next } : {});
  }

  function step(job: Job) {
    job.running ??= start(job);
    if (!job.running) return;
    const { name, memory: key, generator } = job.running;
    const known = memory.get(key);
    const { done, value } = known ? { done: true, value: known } : generator.next();
    if (!done) return;
    job.runs[name] = value as Run;
    remember(key, value as Run);
    job.running = undefined;
  }

  function start(job: Job): Running | undefined {
    const next = job.left.shift();
    if (!next) return undefined;
    const problem = { ...next[1], accuracy: job.accuracy };
    return { name: next[0], memory: JSON.stringify(problem), generator: simulate(problem) };
  }

  function work(milliseconds: number) {
    const end = now() + milliseconds;
    let line = nextLine();
    while (line?.job && now() < end) {
      advance(line, line.job);
      line = nextLine();
    }
    return line !== undefined;
  }

  return { ask, work };
}

const newJob = (order: Order, accuracy: Job["accuracy"]): Job => ({
  order,
  accuracy,
  left: Object.entries(order.problems),
  runs: {},
});

const isDone = (job: Job) => !job.running && job.left.length === 0;

const standardAfter = ({ accuracy, order }: Job) =>
  accuracy === "live" && !order.isCoarseEnough ? newJob(order, "standard") : undefined;
