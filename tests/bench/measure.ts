import { median } from "d3-array";
import type { Accuracy, Problem } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import type { Errors } from "../support/errors.ts";

const TIMED_RUNS = 5;
/** The first runs of a process take several times as long, until its code is compiled for good. */
const WARM_UP_RUNS = 8;

/** Cost of a run, and its errors, as shares. */
export interface Figure {
  name: string;
  accuracy: Accuracy;
  cells: number;
  steps: number;
  milliseconds: number;
  balanceError: number;
  errors?: Errors;
}

/** A run and the median time of some more, milliseconds, warm. */
export function timed(problem: Problem): { run: Run; milliseconds: number } {
  const run = simulateToEnd(problem);
  const isQuick = run.milliseconds < 1000;
  for (let k = 1; isQuick && k < WARM_UP_RUNS; k++) simulateToEnd(problem);
  const more = Array.from({ length: TIMED_RUNS }, () => simulateToEnd(problem).milliseconds);
  return { run, milliseconds: median(more)! };
}
