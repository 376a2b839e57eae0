import { type Problem, type Progress, type Run, simulate } from "../../model/index.ts";
import type { Ask, Solved, Solver } from "./cells.ts";
import type { Delivery, Order } from "./solveQueue.ts";

interface Open {
  id: number;
  ask: Ask<unknown>;
  deliver(solved: Solved<unknown>): void;
}

/** Hands asks to the worker and puts each result back together with the settings it was asked for. */
export function workerSolver(worker: Worker, onBusy: (busy: boolean) => void): Solver {
  const open = new Map<string, Open[]>();
  let lastId = 0;

  worker.onmessage = ({ data: { key, id, accuracy, runs } }: MessageEvent<Delivery>) => {
    const newer = (open.get(key) ?? []).filter((each) => each.id >= id);
    const asked = newer.find((each) => each.id === id);
    open.set(key, accuracy === "standard" ? newer.filter((each) => each.id > id) : newer);
    asked?.deliver({ of: asked.ask.of, accuracy, runs });
    onBusy([...open.values()].some((list) => list.length > 0));
  };

  return {
    ask(key, ask, deliver) {
      lastId += 1;
      open.set(key, [...(open.get(key) ?? []), { id: lastId, ask, deliver }]);
      worker.postMessage({ key, id: lastId, problems: ask.problems } satisfies Order);
      onBusy(true);
    },
  };
}

/** Solves at once, at the accuracy that answers are based on: for the terminal and for tests. */
export function directSolver(onProgress: (name: string, progress: Progress) => void = () => {}): Solver {
  return {
    ask(_key, { of, problems }, deliver) {
      const solve = ([name, problem]: [string, Problem]): [string, Run] => {
        const run = solveToTheEnd({ ...problem, accuracy: "standard" }, (progress) => onProgress(name, progress));
        return [name, run];
      };
      deliver({ of, accuracy: "standard", runs: Object.fromEntries(Object.entries(problems).map(solve)) });
    },
  };
}

function solveToTheEnd(problem: Problem, onProgress: (progress: Progress) => void): Run {
  const running = simulate(problem);
  let step = running.next();
  while (!step.done) {
    onProgress(step.value);
    step = running.next();
  }
  return step.value;
}
