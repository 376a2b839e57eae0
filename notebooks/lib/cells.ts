/**
 * Typed cells on the reactive runtime. A cell is a description without state; a notebook is a handful of them, and
 * `startCells` brings them to life for a page, the terminal or a test.
 *
 * - `source(name)`: a value set from outside (the plan, the units, the day shown).
 * - `derive({ a, b }, ({ a, b }) => …)`: computed again whenever one of its inputs changes, to another number, text or
 *   object. What takes long and needs only part of a plan goes by a cell that picks that part.
 * - `solution(ask)`: the runs of the problems that the cell `ask` gives. They arrive later, and more than once (coarse,
 *   then fine); each result carries `of`, the settings it belongs to, so that a picture is never labelled from a
 *   slider that has moved on. A run that did not come to its end fails the cell, and all that rests on it, in words.
 * - `ensemble(ask)`: the outcomes of the many members that the cell `ask` gives as `{ of, plan, members, task }`
 *   (`drawMembers`; `MemberTask` says what is worked out for each). The cell's values are `{ of, outcomes, total, isDone, isStopped }`: on a page
 *   they grow, from ten members on (or the last, where there are fewer), some five times a second; `isStopped` says that
 *   a person has stopped it, and what is there so far stays. Everywhere else the one value is the finished ensemble.
 *   `outcomes` are in the order of `index` and hold failed members too (`trouble`). An ask that is equal but for `of` and
 *   the plan's name, notes and units goes on where it was; any other drops the one before it at once. Members that are
 *   already known are not solved again, so a larger `count` of the same seed begins with those of the smaller. The page
 *   gives every notebook that has such a cell a progress bar with a button to stop and go on. Ask for members only from
 *   a cell that rests on a `solution` where they need its run, and keep all that only chooses what to show out of the ask.
 */
import { type Module, Runtime, type Variable } from "@observablehq/runtime";
import type { Accuracy, Member, MemberTask, OutcomeOf, Plan, Problem, Run } from "../../model/index.ts";
import { requireFinished } from "./runs.ts";

export type Cell<T> = Source<T> | Derived<T> | Solution<T> | Ensemble<T>;

export interface Source<T> {
  readonly kind: "source";
  readonly name: string;
  /** Carries the type only. */
  readonly value?: T;
}

export interface Derived<T> {
  readonly kind: "derived";
  readonly inputs: Readonly<Record<string, Cell<unknown>>>;
  readonly compute: (inputs: never) => T;
}

export interface Solution<T> {
  readonly kind: "solution";
  readonly ask: Cell<Ask<unknown>>;
  /** Carries the type only. */
  readonly value?: T;
}

export interface Ensemble<T> {
  readonly kind: "ensemble";
  readonly ask: Cell<EnsembleAsk<unknown>>;
  /** Carries the type only. */
  readonly value?: T;
}

/** What a notebook wants solved: named problems, and the settings (`of`) that the answer will be labelled with. */
export interface Ask<Of> {
  of: Of;
  problems: Readonly<Record<string, Problem>>;
  /** No fine solution is to follow the coarse one: what rests on it is coarse itself. */
  isCoarseEnough?: boolean;
}

export interface Solved<Of> {
  of: Of;
  accuracy: Accuracy;
  runs: Readonly<Record<string, Run>>;
}

/** Members of one plan, and the settings (`of`) that their answer will be labelled with. */
export interface EnsembleAsk<Of, T extends MemberTask = MemberTask> {
  of: Of;
  plan: Plan;
  members: readonly Member[];
  task: T;
}

/** The outcomes of an ensemble that are in. */
export interface Gathered<Of, T extends MemberTask = MemberTask> {
  of: Of;
  /** By index. */
  outcomes: readonly OutcomeOf<T>[];
  /** Members asked for. */
  total: number;
  isDone: boolean;
  /** Stopped by a person before it was done; it may go on. */
  isStopped: boolean;
}

/**
 * Solves asks. Of several asks under one rank only the newest matters; lower ranks matter more. `deliver` may be called
 * more than once.
 */
export interface Solver {
  ask(rank: number, ask: Ask<unknown>, deliver: (solved: Solved<unknown>) => void): void;
}

/** Solves ensembles, each rank's newest only. After `fail`, nothing more is delivered for that ask. */
export interface EnsembleSolver {
  /** Asks will follow: makes ready what takes a while to start. */
  prepare(): void;
  ask(rank: number, ask: EnsembleAsk<unknown>, sink: Sink<Gathered<unknown>>): void;
  /** Solves and delivers no more for this rank. */
  drop(rank: number): void;
}

export interface Sink<T> {
  deliver(value: T): void;
  fail(error: unknown): void;
}

export const source = <T>(name: string): Source<T> => ({ kind: "source", name });

export const derive = <I extends Record<string, unknown>, T>(
  inputs: { readonly [K in keyof I]: Cell<I[K]> },
  compute: (inputs: I) => T,
): Derived<T> => ({ kind: "derived", inputs, compute });

export const solution = <Of>(ask: Cell<Ask<Of>>): Solution<Solved<Of>> => ({ kind: "solution", ask });

export const ensemble = <Of, T extends MemberTask>(ask: Cell<EnsembleAsk<Of, T>>): Ensemble<Gathered<Of, T>> => ({
  kind: "ensemble",
  ask,
});

export interface LiveCells {
  /** Sources hold plain data; an equal value set again changes nothing. */
  set<T>(source: Source<T>, value: T): void;
  /** Calls back with every new value of a cell, and keeps the cell computing. */
  watch<T>(cell: Cell<T>, fulfilled: (value: T) => void, rejected: (error: unknown) => void): void;
  value<T>(cell: Cell<T>): Promise<T>;
  stop(): void;
}

const noEnsembles: EnsembleSolver = {
  prepare() {},
  ask() {
    throw new Error("There is nothing here that solves ensembles.");
  },
  drop() {},
};

/**
 * Solutions and ensembles rank in the order in which they are first needed. Sources must be set before a cell that needs
 * them is watched or asked for its value.
 */
export function startCells(solver: Solver, ensembles: EnsembleSolver = noEnsembles): LiveCells {
  const runtime = new Runtime();
  const module = runtime.module();
  const names = new Map<Cell<unknown>, string>();
  const sources = new Map<Source<unknown>, { variable: Variable; text: string }>();
  let ranks = 0;

  function nameOf(cell: Cell<unknown>): string {
    const known = names.get(cell);
    if (known) return known;
    const name = `${cell.kind}${names.size}`;
    names.set(cell, name);
    define(cell, name);
    return name;
  }

  function define(cell: Cell<unknown>, name: string) {
    if (cell.kind === "source") throw new Error(`The source "${cell.name}" was used before it was set.`);
    if (cell.kind === "derived") return defineDerived(module, name, cell, nameOf);
    const begin = cell.kind === "solution" ? solutionOf(solver, ranks++) : ensembleOf(ensembles, ranks++);
    defineArriving(module, { name, askName: nameOf(cell.ask) }, begin);
  }

  return {
    set(cell, value) {
      const text = JSON.stringify(value);
      const known = sources.get(cell);
      if (known?.text === text) return;
      const name = names.get(cell) ?? `source_${cell.name}`;
      names.set(cell, name);
      const variable = known?.variable ?? module.variable();
      sources.set(cell, { text, variable: variable.define(name, [], () => value) });
    },
    watch<T>(cell: Cell<T>, fulfilled: (value: T) => void, rejected: (error: unknown) => void) {
      module.variable(onChange(fulfilled, rejected)).define(null, [nameOf(cell)], (value: unknown) => value);
    },
    value: <T>(cell: Cell<T>) => module.value(nameOf(cell)) as Promise<T>,
    stop: () => runtime.dispose(),
  };
}

function defineDerived(module: Module, name: string, cell: Derived<unknown>, nameOf: (cell: Cell<unknown>) => string) {
  const keys = Object.keys(cell.inputs);
  const compute = cell.compute as (inputs: Record<string, unknown>) => unknown;
  let last: { values: unknown[]; result: unknown } | undefined;
  const definition = (...values: unknown[]) => {
    if (!last?.values.every((value, i) => Object.is(value, values[i])))
      last = { values, result: compute(Object.fromEntries(keys.map((key, i) => [key, values[i]]))) };
    return last.result;
  };
  module.variable().define(
    name,
    keys.map((key) => nameOf(cell.inputs[key] as Cell<unknown>)),
    definition,
  );
}

/** The runtime reports a cell again whenever anything above it was looked at; a watcher hears of new values alone. */
function onChange<T>(fulfilled: (value: T) => void, rejected: (error: unknown) => void) {
  let last: { value: unknown } | undefined;
  return {
    fulfilled(value: unknown) {
      if (last && Object.is(last.value, value)) return;
      last = { value };
      fulfilled(value as T);
    },
    rejected(error: unknown) {
      last = undefined;
      rejected(error);
    },
  };
}

/** What answers the asks of one cell. */
interface Begin {
  ask(ask: unknown, sink: Sink<unknown>): void;
  /** There is no ask that could be answered. */
  drop(): void;
}

function solutionOf(solver: Solver, rank: number): Begin {
  return {
    ask(ask, { deliver, fail }) {
      solver.ask(rank, ask as Ask<unknown>, (solved) => {
        try {
          requireFinished(solved.runs);
          deliver(solved);
        } catch (error) {
          fail(error);
        }
      });
    },
    drop() {},
  };
}

function ensembleOf(ensembles: EnsembleSolver, rank: number): Begin {
  ensembles.prepare();
  return {
    ask: (ask, sink) => ensembles.ask(rank, ask as EnsembleAsk<unknown>, sink),
    drop: () => ensembles.drop(rank),
  };
}

/**
 * The ask is watched for its side effect; results redefine the cell as they come. So a result of older settings is
 * still shown while newer ones are being solved, and no pending promise is ever left behind by a superseded cell:
 * only the first one waits, and the first result settles it.
 */
function defineArriving(module: Module, { name, askName }: { name: string; askName: string }, begin: Begin) {
  const variable = module.variable();
  let settle: ((value: Promise<unknown>) => void) | undefined;
  variable.define(
    name,
    [],
    new Promise((resolve) => {
      settle = resolve;
    }),
  );

  function show(result: () => unknown) {
    if (settle) settle(new Promise((resolve) => resolve(result())));
    else variable.define(name, [], result);
    settle = undefined;
  }
  function fail(error: unknown) {
    show(() => {
      throw error;
    });
  }
  function ask(value: unknown) {
    try {
      begin.ask(value, { deliver: (result) => show(() => result), fail });
    } catch (error) {
      fail(error);
    }
  }
  function refuse(error: unknown) {
    begin.drop();
    fail(error);
  }
  module.variable(onChange(ask, refuse)).define(null, [askName], (value: unknown) => value);
}
