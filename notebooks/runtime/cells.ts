/**
 * Typed cells on the reactive runtime. A cell is a description without state; a notebook is a handful of them, and
 * `startCells` (`liveCells.ts`) brings them to life for a page, the terminal or a test.
 *
 * - `source(name)`: a value set from outside (the plan, the units, the day shown).
 * - `derive({ a, b }, ({ a, b }) => …)`: computed again whenever one of its inputs changes, to another number, text or
 *   object.
 * - `picked({ plan }, ({ plan }) => …)`: as `derive`, and a value that holds the same data as the last one is the last one, so
 *   that what takes long and rests on a part of a plan (`planPart`) stands while the rest of it changes.
 * - `solution(ask)`: the runs of the problems that the cell `ask` gives. They arrive later, and more than once (coarse,
 *   then fine); each result carries `of`, the settings it belongs to, so that a picture is never labelled from a
 *   slider that has moved on. A run that did not come to its end fails the cell, and all that rests on it, in words.
 * - `ensemble(ask)`: the outcomes of the many members that the cell `ask` gives as `{ of, plan, members, task }`
 *   (`drawMembers`; `MemberTask` says what is worked out for each). The cell's values are `{ of, outcomes, total, isDone, isStopped }`: on a page
 *   they grow, from ten members on (or the last, where there are fewer), some five times a second; `isStopped` says that
 *   a person has stopped it, and what is there so far stays. Everywhere else the one value is the finished ensemble.
 *   `outcomes` are in the order of `index` and hold failed members too (`trouble`). An ask that is equal but for `of` and
 *   what no flow rests on (`pottedGround`) goes on where it was; any other drops the one before it at once. Members that are
 *   already known are not solved again, so a larger `count` of the same seed begins with those of the smaller. The page
 *   gives every notebook that has such a cell a progress bar with a button to stop and go on. Ask for members only from
 *   a cell that rests on a `solution` where they need its run, and keep all that only chooses what to show out of the ask.
 * - `rested(cell, compute)`: computed from a cell's value once that has stood still for a moment, on a page; everywhere else
 *   at once. For what takes longer than a slider may wait: `compute` is a generator that yields where it may be left, for
 *   the page to do something else. Until it is done the cell has its last value, or `first`, so let that carry what it belongs to.
 */

import type { Member, MemberTask, OutcomeOf } from "../../model/public/ensemble.ts";
import type { Accuracy, Problem, Run } from "../../model/public/flow.ts";
import type { PottedGround } from "../../model/public/plan.ts";

export type Cell<T> = Source<T> | Derived<T> | Solution<T> | Ensemble<T> | Rested<T>;

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
  /** A value of the same data as the last one is the last one. */
  readonly isPicked?: true;
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

export interface Rested<T> {
  readonly kind: "rested";
  readonly input: Cell<unknown>;
  readonly compute: (input: never) => Generator<void, T>;
  /** On a page, its value until the first is worked out; left out: none. */
  readonly first?: T;
}

/** What a notebook wants solved: named problems, and the settings (`of`) that the answer will be labelled with. */
export interface Ask<Of, Name extends string = string> {
  of: Of;
  problems: Readonly<Record<Name, Problem>>;
  /** No fine solution is to follow the coarse one: what rests on it is coarse itself. */
  isCoarseEnough?: boolean;
}

/** The run of each problem that was asked for, by the problem's name. */
export interface Solved<Of, Name extends string = string> {
  of: Of;
  accuracy: Accuracy;
  runs: Readonly<Record<Name, Run>>;
}

/** Members of one plan, and the settings (`of`) that their answer will be labelled with. */
export interface EnsembleAsk<Of, T extends MemberTask = MemberTask> {
  of: Of;
  plan: PottedGround;
  members: readonly Member[];
  task: T;
}

/** The outcomes of an ensemble that are in. */
export interface EnsembleOutcomes<Of, T extends MemberTask = MemberTask> {
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
 * Solves asks. Of several asks under one rank only the newest matters; lower ranks matter more. More than one result may
 * be delivered. After `fail`, nothing more is delivered for that ask.
 */
export interface Solver {
  ask(rank: number, ask: Ask<unknown>, sink: Sink<Solved<unknown>>): void;
}

/** Solves ensembles, each rank's newest only. After `fail`, nothing more is delivered for that ask. */
export interface EnsembleSolver {
  /** Asks will follow: makes ready what takes a while to start. */
  prepare(): void;
  ask(rank: number, ask: EnsembleAsk<unknown>, sink: Sink<EnsembleOutcomes<unknown>>): void;
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

export const picked = <I extends Record<string, unknown>, T extends object>(
  inputs: { readonly [K in keyof I]: Cell<I[K]> },
  compute: (inputs: I) => T,
): Derived<T> => ({ kind: "derived", inputs, compute, isPicked: true });

export const solution = <Of, Name extends string>(ask: Cell<Ask<Of, Name>>): Solution<Solved<Of, Name>> => ({
  kind: "solution",
  ask,
});

export const ensemble = <Of, T extends MemberTask>(
  ask: Cell<EnsembleAsk<Of, T>>,
): Ensemble<EnsembleOutcomes<Of, T>> => ({
  kind: "ensemble",
  ask,
});

export const rested = <I, T>(input: Cell<I>, compute: (input: I) => Generator<void, T>, first?: T): Rested<T> => ({
  kind: "rested",
  input,
  compute,
  ...(first !== undefined && { first }),
});

/** Puts off work, and does it piece by piece; of several works under one rank only the newest goes on. */
export type Later = (rank: number, work: Iterator<void>) => void;
