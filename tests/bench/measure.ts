import { max, median } from "d3-array";
import type { Accuracy, Problem } from "../../model/flow/problem.ts";
import type { Row, Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";

const TIMED_RUNS = 5;

/** Largest errors of a run, percent; `emptying` is absent where the pot does not run empty. */
export interface Errors {
  seepage: number;
  radius: number;
  depth: number;
  emptying?: number;
}

/** Largest errors allowed, percent: against the published numbers, and against `reference`. */
export const BOUNDS: Record<Accuracy, Required<Errors>> = {
  live: { seepage: 1.5, radius: 2, depth: 5, emptying: Number.POSITIVE_INFINITY },
  standard: { seepage: 0.5, radius: 1, depth: 1, emptying: 0.5 },
  reference: { seepage: 0.5, radius: 1, depth: 1, emptying: 0.5 },
};

/** A run and the median time of some more, milliseconds. */
export function timed(problem: Problem): { run: Run; milliseconds: number } {
  const run = simulateToEnd(problem);
  const more = Array.from({ length: TIMED_RUNS }, () => simulateToEnd(problem).milliseconds);
  return { run, milliseconds: median(more)! };
}

type KnownRow = Pick<Row, "seepageLitres" | "wettedRadius" | "wettedDepth">;

/** What a run is measured against: rows on the same days. */
export interface Known {
  rows: readonly KnownRow[];
  firstEmptyDay: number | null;
}

/**
 * Not a number where the run did not come to its end. Radius and depth are compared while the edge goes outward: once
 * the pot is empty it draws back and dissolves, and a share of nothing says nothing.
 */
export function errorsOf({ status, rows, firstEmptyDay }: Run, known: Known): Errors {
  if (status !== "finished") return { seepage: Number.NaN, radius: Number.NaN, depth: Number.NaN };
  const worst = (name: keyof KnownRow) => {
    const farthest = (k: number) => max(known.rows.slice(0, k + 1), (row) => row[name])!;
    return max(rows, (row, k) => {
      const expected = known.rows[k]![name];
      return expected < farthest(k) ? 0 : percentOff(row[name], expected);
    })!;
  };
  return {
    seepage: worst("seepageLitres"),
    radius: worst("wettedRadius"),
    depth: worst("wettedDepth"),
    ...(known.firstEmptyDay !== null && { emptying: percentOff(firstEmptyDay ?? Number.NaN, known.firstEmptyDay) }),
  };
}

const percentOff = (actual: number, expected: number) =>
  actual === expected ? 0 : 100 * Math.abs(actual / expected - 1);

export function isWithin(errors: Errors, bounds: Required<Errors>): boolean {
  return (Object.keys(errors) as (keyof Errors)[]).every((name) => errors[name]! <= bounds[name]);
}
