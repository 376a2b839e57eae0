/** Both sides solve a case in turns: times, how far the answers lie apart, and the error of each. */
import { max, mean, sum } from "d3-array";
import type { Problem } from "../../../model/public/flow.ts";
import { errorsOf } from "../../support/errors.ts";
import type { Answered, Case, Shares } from "./cases.ts";
import { inTurns, middleHalf, over, type Pair, type Times, timesOf } from "./inTurns.ts";

export interface Solved<R = Answered> {
  run: R;
  /** The solve alone: of code in this process the processors' time, else what a program tells; null where it does not. */
  milliseconds: number | null;
  /** From the start of a process to its end. */
  processMilliseconds?: number;
  /** The solve once more, by the processors' time, with code that has run before. */
  warmMilliseconds?: number;
}

export interface Side<R = Answered> {
  /** Throws an Error that says what went wrong where there is no whole answer. */
  solve(problem: Problem, grid: Case["grid"]): Solved<R> | Promise<Solved<R>>;
}

export interface Row {
  name: string;
  setting: string;
  grid: string;
  /** In place of everything else. */
  trouble?: string;
  times?: Times;
  processTimes?: Times;
  /** The least of ours. */
  warmMilliseconds?: number;
  /** Largest differences of the two answers, as shares. */
  apart?: { seepage: number; radius: number };
  errors?: Pair<Shares>;
}

export interface Effort {
  rounds: number;
  /** Rounds before those that count. */
  warmUp: number;
}

export async function compareCase<R extends Answered>(
  sides: Pair<Side<R>>,
  { name, problem, grid, errors }: Case<R>,
  { rounds, warmUp }: Effort,
): Promise<Row> {
  const row = { name, setting: problem.accuracy, grid };
  const work = {
    ours: () => named("ours", () => sides.ours.solve(problem, grid)),
    theirs: () => named("theirs", () => sides.theirs.solve(problem, grid)),
  };
  try {
    await inTurns(warmUp, work);
    const solved = await inTurns(rounds, work);
    const { ours, theirs } = solved[0]!;
    const { seepage, radius } = errorsOf(ours.run, theirs.run);
    return {
      ...row,
      ...timesIn(solved),
      apart: { seepage, radius },
      ...(errors && { errors: { ours: errors(ours.run), theirs: errors(theirs.run) } }),
    };
  } catch (error) {
    return { ...row, trouble: (error as Error).message };
  }
}

async function named<T>(side: string, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw new Error(`${side}: ${error instanceof Error ? error.message : error}`);
  }
}

function timesIn(solved: Pair<Solved<unknown>>[]): Pick<Row, "times" | "processTimes" | "warmMilliseconds"> {
  const told = (key: "milliseconds" | "processMilliseconds") => {
    const pairs = solved.map(({ ours, theirs }) => ({ ours: ours[key], theirs: theirs[key] }));
    const isTold = (pair: (typeof pairs)[number]): pair is Pair<number> => pair.ours != null && pair.theirs != null;
    return pairs.every(isTold) ? timesOf(pairs) : undefined;
  };
  const [times, processTimes] = [told("milliseconds"), told("processMilliseconds")];
  const warm = solved.flatMap(({ ours }) => ours.warmMilliseconds ?? []);
  return {
    ...(times && { times }),
    ...(processTimes && { processTimes }),
    ...(warm.length > 0 && { warmMilliseconds: Math.min(...warm) }),
  };
}

/** Rows of one setting and kind of grid: their mean times and errors, and the largest of their errors. */
export function summed(rows: readonly Row[]): Row[] {
  const kinds = new Map<string, Row[]>();
  for (const row of rows.filter(({ apart }) => apart)) {
    const kind = `${row.setting} ${row.grid}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), row]);
  }
  return [...kinds.values()].filter((alike) => alike.length > 1).flatMap((alike) => [meanRow(alike), worstRow(alike)]);
}

function meanRow(rows: readonly Row[]): Row {
  const [times, processTimes] = [meanTimes(rows.map(({ times }) => times)), meanTimes(rows.map((r) => r.processTimes))];
  return {
    ...gathered(rows, mean),
    name: `mean of ${rows.length}`,
    ...(times && { times }),
    ...(processTimes && { processTimes }),
  };
}

const worstRow = (rows: readonly Row[]): Row => ({ ...gathered(rows, max), name: `largest of ${rows.length}` });

type Gather = (list: readonly Row[], value: (row: Row) => number | undefined) => number | undefined;

function gathered(rows: readonly Row[], gather: Gather): Row {
  const { setting, grid, errors } = rows[0]!;
  const of = (value: (row: Row) => number | undefined) => gather(rows, value)!;
  const errorsOn = (side: keyof Pair<Shares>) =>
    Object.fromEntries(Object.keys(errors![side]).map((key) => [key, of((row) => row.errors?.[side][key])]));
  return {
    name: "",
    setting,
    grid,
    apart: { seepage: of(({ apart }) => apart?.seepage), radius: of(({ apart }) => apart?.radius) },
    ...(errors && { errors: { ours: errorsOn("ours"), theirs: errorsOn("theirs") } }),
  };
}

/** Of the rows' times together, so that a long run counts for more; with the middle half of the rows' ratios. */
function meanTimes(times: readonly (Times | undefined)[]): Times | undefined {
  const told = times.filter((each) => each !== undefined);
  if (told.length < times.length) return undefined;
  const together = (kind: "least" | "median"): Pair<number> => ({
    ours: sum(told, (each) => each[kind].ours) / told.length,
    theirs: sum(told, (each) => each[kind].theirs) / told.length,
  });
  const [least, median] = [together("least"), together("median")];
  const ratios = told.map(({ ratio }) => ratio.median);
  return {
    least,
    median,
    ratio: { least: over(least), median: over(median), middle: middleHalf(ratios) },
  };
}

/** Points by which an error may exceed the other's before it counts as worse, as a share. */
export const WORSE_BY = 0.002;

/** Where one side's error is worse than the other's, in words. */
export function worse({ errors }: Row, side: keyof Pair<Shares>): string[] {
  if (!errors) return [];
  const other = side === "ours" ? errors.theirs : errors.ours;
  return Object.entries(errors[side])
    .map(([key, error]) => ({ key, by: error - other[key]! }))
    .filter(({ by }) => by > WORSE_BY)
    .map(({ key, by }) => `${key} by ${(100 * by).toFixed(2)}`);
}
