/** Brings cells to life on the reactive runtime. */
import { type Module, Runtime, type Variable } from "@observablehq/runtime";
import type {
  Ask,
  Cell,
  Derived,
  EnsembleAsk,
  EnsembleSolver,
  Later,
  Rested,
  Sink,
  Solved,
  Solver,
  Source,
} from "./cells.ts";
import { requireFinished } from "./runs.ts";
import { isSameData } from "./sameData.ts";
import { toEnd } from "./toEnd.ts";

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
 * The runtime waits a frame before it computes. An answer passes through it twice, on the way to the worker and back, so
 * here it computes as soon as what is running ends. This rests on private parts of the runtime: a test holds them.
 */
class PromptRuntime extends Runtime {
  protected override _computeSoon() {
    return Promise.resolve().then(() => this._computeNow());
  }
}

/**
 * Solutions and ensembles rank in the order in which they are first needed. Sources must be set before a cell that needs
 * them is watched or asked for its value.
 */
export function startCells(solver: Solver, ensembles: EnsembleSolver = noEnsembles, later: Later = atOnce): LiveCells {
  const runtime = new PromptRuntime();
  const module = runtime.module();
  const names = new Map<Cell<unknown>, string>();
  const sources = new Map<Source<unknown>, { variable: Variable; value: unknown }>();
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
    if (cell.kind === "rested")
      return defineArriving(module, { name, askName: nameOf(cell.input) }, restedOf(later, ranks++, cell));
    const begin = cell.kind === "solution" ? solutionOf(solver, ranks++) : ensembleOf(ensembles, ranks++);
    defineArriving(module, { name, askName: nameOf(cell.ask) }, begin);
  }

  return {
    set(cell, value) {
      const known = sources.get(cell);
      if (known && isSameData(known.value, value)) return;
      const name = names.get(cell) ?? `source_${cell.name}`;
      names.set(cell, name);
      const variable = known?.variable ?? module.variable();
      sources.set(cell, { value, variable: variable.define(name, [], () => value) });
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
    if (last?.values.every((value, i) => Object.is(value, values[i]))) return last.result;
    const result = compute(Object.fromEntries(keys.map((key, i) => [key, values[i]])));
    last = { values, result: cell.isPicked && isSameData(last?.result, result) ? last?.result : result };
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
      const deliverFinished = (solved: Solved<unknown>) => {
        try {
          requireFinished(solved.runs);
          deliver(solved);
        } catch (error) {
          fail(error);
        }
      };
      solver.ask(rank, ask as Ask<unknown>, { deliver: deliverFinished, fail });
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

function restedOf(later: Later, rank: number, { compute, first }: Rested<unknown>): Begin {
  let isFirst = first !== undefined && later !== atOnce;
  return {
    ask(input, sink) {
      if (isFirst) sink.deliver(first);
      isFirst = false;
      later(rank, intoSink(compute(input as never), sink));
    },
    drop: () => later(rank, [].values()),
  };
}

function* intoSink(course: Generator<void, unknown>, { deliver, fail }: Sink<unknown>): Generator<void> {
  try {
    deliver(yield* course);
  } catch (error) {
    fail(error);
  }
}

const atOnce: Later = (_, work) => toEnd(work);

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
