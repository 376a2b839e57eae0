import { type Member, type MemberTask, type OutcomeOf, solveMember } from "../../model/public/ensemble.ts";
import { type Accuracy, type Problem, type Progress, type Run, simulateToEnd } from "../../model/public/flow.ts";
import type { PottedGround } from "../../model/public/plan.ts";
import type { Ask, EnsembleSolver, Sink, Solved, Solver } from "../runtime/cells.ts";
import { words } from "../words/words.ts";
import type { Delivery, Order } from "./solveQueue.ts";

interface Open {
  id: number;
  ask: Ask<unknown>;
  /** Its coarse result is in. */
  isShown: boolean;
  sink: Sink<Solved<unknown>>;
}

/** What a page's solver still has to do: anything at all; a coarse run, which a person who moves a slider waits for. */
export interface Busy {
  isBusy: boolean;
  isAwaited: boolean;
}

/** Hands asks to the worker and puts each result back together with the settings it was asked for. */
export function workerSolver(worker: Worker, onBusy: (busy: Busy) => void): Solver {
  const open = new Map<number, Open[]>();
  let lastId = 0;

  worker.onmessage = ({ data }: MessageEvent<Delivery>) => {
    const { rank, id, accuracy } = data;
    const newer = (open.get(rank) ?? []).filter((each) => each.id >= id);
    const asked = newer.find((each) => each.id === id);
    const isLast = "failed" in data || accuracy === "standard" || asked?.ask.isCoarseEnough;
    open.set(rank, isLast ? newer.filter((each) => each.id > id) : newer);
    if (asked) asked.isShown = true;
    if ("failed" in data) asked?.sink.fail(new Error(words.brokeDown(data.failed)));
    else asked?.sink.deliver({ of: asked.ask.of, accuracy, runs: data.runs });
    const left = [...open.values()].flat();
    onBusy({ isBusy: left.length > 0, isAwaited: left.some(({ isShown }) => !isShown) });
  };

  return {
    ask(rank, ask, sink) {
      lastId += 1;
      open.set(rank, [...(open.get(rank) ?? []), { id: lastId, ask, isShown: false, sink }]);
      const { problems, isCoarseEnough = false } = ask;
      worker.postMessage({ rank, id: lastId, problems, isCoarseEnough } satisfies Order);
      onBusy({ isBusy: true, isAwaited: true });
    },
  };
}

interface DirectOptions {
  accuracy?: Accuracy;
  onProgress?(name: string, progress: Progress): void;
}

/** Solves at once, at the accuracy that answers are based on: for the terminal and for tests. Solves no problem twice. */
export function directSolver({ accuracy = "standard", onProgress }: DirectOptions = {}): Solver {
  const solved = new Map<string, Run>();

  function solve(name: string, problem: Problem): Run {
    const key = JSON.stringify(problem);
    const run = solved.get(key) ?? simulateToEnd(problem, (progress) => onProgress?.(name, progress));
    solved.set(key, run);
    return run;
  }
  return {
    ask(_rank, { of, problems, isCoarseEnough }, { deliver }) {
      const own = isCoarseEnough ? "live" : accuracy;
      const runs = Object.entries(problems).map(([name, problem]) => [
        name,
        solve(name, { ...problem, accuracy: own }),
      ]);
      deliver({ of, accuracy: own, runs: Object.fromEntries(runs) });
    },
  };
}

interface DirectEnsembleOptions {
  solve?: (plan: PottedGround, member: Member, task: MemberTask) => OutcomeOf<MemberTask>;
  /** Leaves out all members after the first so many. */
  atMost?: number;
  /** Keeps one in so many members; unlike `atMost` it leaves a larger ensemble the larger one. */
  every?: number;
}

/** Solves members in place, one after another, each only once: for tests. */
export function directEnsembles({
  solve = solveMember,
  atMost = Infinity,
  every = 1,
}: DirectEnsembleOptions = {}): EnsembleSolver {
  const solved = new Map<string, OutcomeOf<MemberTask>>();
  const isKept = (_: unknown, i: number) => i % every === 0;
  return {
    prepare() {},
    ask(_rank, { of, plan, members, task }, { deliver }) {
      const outcomes = members
        .slice(0, atMost)
        .filter(isKept)
        .map((member) => {
          const key = JSON.stringify([plan, member, task]);
          const outcome = solved.get(key) ?? solve(plan, member, task);
          solved.set(key, outcome);
          return outcome;
        });
      deliver({ of, outcomes, total: outcomes.length, isDone: true, isStopped: false });
    },
    drop() {},
  };
}
