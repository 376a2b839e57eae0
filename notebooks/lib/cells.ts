/**
 * Typed cells on the reactive runtime. A cell is a description without state; a notebook is a handful of them, and
 * `startCells` brings them to life for a page, the terminal or a test.
 *
 * - `source(name)`: a value set from outside (the plan, the units, the day shown).
 * - `derive({ a, b }, ({ a, b }) => …)`: computed again whenever one of its inputs changes.
 * - `solution(ask)`: the runs of the problems that the cell `ask` gives. They arrive later, and more than once (coarse,
 *   then fine); each result carries `of`, the settings it belongs to, so that a picture is never labelled from a
 *   slider that has moved on. A run that did not come to its end fails the cell, and all that rests on it, in words.
 */
import { type Module, Runtime, type Variable } from "@observablehq/runtime";
import type { Accuracy, Problem, Run } from "../../model/index.ts";
import { requireFinished } from "./runs.ts";

export type Cell<T> = Source<T> | Derived<T> | Solution<T>;

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

/** What a notebook wants solved: named problems, and the settings (`of`) that the answer will be labelled with. */
export interface Ask<Of> {
  of: Of;
  problems: Readonly<Record<string, Problem>>;
}

export interface Solved<Of> {
  of: Of;
  accuracy: Accuracy;
  runs: Readonly<Record<string, Run>>;
}

/**
 * Solves asks. Of several asks under one rank only the newest matters; lower ranks matter more. `deliver` may be called
 * more than once.
 */
export interface Solver {
  ask(rank: number, ask: Ask<unknown>, deliver: (solved: Solved<unknown>) => void): void;
}

export const source = <T>(name: string): Source<T> => ({ kind: "source", name });

export const derive = <I extends Record<string, unknown>, T>(
  inputs: { readonly [K in keyof I]: Cell<I[K]> },
  compute: (inputs: I) => T,
): Derived<T> => ({ kind: "derived", inputs, compute });

export const solution = <Of>(ask: Cell<Ask<Of>>): Solution<Solved<Of>> => ({ kind: "solution", ask });

export interface LiveCells {
  /** Sources hold plain data; an equal value set again changes nothing. */
  set<T>(source: Source<T>, value: T): void;
  /** Calls back with every new value of a cell, and keeps the cell computing. */
  watch<T>(cell: Cell<T>, fulfilled: (value: T) => void, rejected: (error: unknown) => void): void;
  value<T>(cell: Cell<T>): Promise<T>;
  stop(): void;
}

/** Solutions rank in the order in which they are first needed. Sources must be set before a cell that needs them is watched or asked for its value. */
export function startCells(solver: Solver): LiveCells {
  const runtime = new Runtime();
  const module = runtime.module();
  const names = new Map<Cell<unknown>, string>();
  let solutions = 0;
  const sources = new Map<Source<unknown>, { variable: Variable; text: string }>();

  function nameOf(cell: Cell<unknown>): string {
    const known = names.get(cell);
    if (known) return known;
    const name = `${cell.kind}${names.size}`;
    names.set(cell, name);
    define(cell, name);
    return name;
  }

  function define(cell: Cell<unknown>, name: string) {
    if (cell.kind === "derived") defineDerived(module, name, cell, nameOf);
    else if (cell.kind === "solution")
      defineSolution(module, { name, askName: nameOf(cell.ask), rank: solutions++ }, solver);
    else throw new Error(`The source "${cell.name}" was used before it was set.`);
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
      const observer = { fulfilled: (value: unknown) => fulfilled(value as T), rejected };
      module.variable(observer).define(null, [nameOf(cell)], (value: unknown) => value);
    },
    value: <T>(cell: Cell<T>) => module.value(nameOf(cell)) as Promise<T>,
    stop: () => runtime.dispose(),
  };
}

function defineDerived(module: Module, name: string, cell: Derived<unknown>, nameOf: (cell: Cell<unknown>) => string) {
  const keys = Object.keys(cell.inputs);
  const compute = cell.compute as (inputs: Record<string, unknown>) => unknown;
  const definition = (...values: unknown[]) => compute(Object.fromEntries(keys.map((key, i) => [key, values[i]])));
  module.variable().define(
    name,
    keys.map((key) => nameOf(cell.inputs[key] as Cell<unknown>)),
    definition,
  );
}

interface SolutionNames {
  name: string;
  askName: string;
  rank: number;
}

/**
 * The ask is watched for its side effect; results redefine the cell as they come. So a result of older settings is
 * still shown while newer ones are being solved, and no pending promise is ever left behind by a superseded cell:
 * only the first one waits, and the first result settles it.
 */
function defineSolution(module: Module, { name, askName, rank }: SolutionNames, solver: Solver) {
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
      solver.ask(rank, value as Ask<unknown>, (solved) =>
        show(() => {
          requireFinished(solved.runs);
          return solved;
        }),
      );
    } catch (error) {
      fail(error);
    }
  }
  module.variable({ fulfilled: ask, rejected: fail }).define(null, [askName], (value: unknown) => value);
}
