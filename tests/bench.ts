/**
 * `npm run bench`: cells, steps, time and errors of the four runs of the test problem, beside the known answers of
 * reference-data/checks/buried-cylinder.json, and the time of the demo bed's coarse answer. Ends with 1 when an error is
 * above its bound, whatever the time.
 */
import { parseArgs } from "node:util";
import { max, median } from "d3-array";
import type { Accuracy, Problem } from "../model/flow/problem.ts";
import type { Run } from "../model/flow/run.ts";
import { simulateToEnd } from "../model/flow/simulate.ts";
import { soundValue } from "../model/input/faults.ts";
import { resolvePlan } from "../model/plan/plan.ts";
import { planToProblem } from "../model/plan/planProblem.ts";
import demoPlan from "../notebooks/demo-plan.json" with { type: "json" };
import { frameDays } from "../notebooks/how-far-does-water-spread/notebook.ts";
import { comparedSoils, meanOf } from "../notebooks/lib/comparedSoils.ts";
import { buriedCylinder } from "../reference-data/loadChecks.ts";
import { knownProblem } from "./support/problems.ts";

const ACCURACIES: Accuracy[] = ["live", "standard", "reference"];
const TIMED_RUNS = 5;
/** Largest errors allowed, in percent; the coarse grid is only there to answer at once. */
const BOUNDS = {
  live: { seepageLitres: 1.5, wettedRadius: 2, wettedDepth: 5 },
  standard: { seepageLitres: 0.5, wettedRadius: 1, wettedDepth: 1 },
  reference: { seepageLitres: 0.5, wettedRadius: 1, wettedDepth: 1 },
};
const HELP = `npm run bench -- [--accuracy live|standard|reference]

Runs the test problem 'buried cylinder' in sand, loam and clay and prints, for each run, cells, time steps, the median
time of ${TIMED_RUNS} runs after one to warm up, and the largest error against the known answer over five times.
Without --accuracy: live and standard, and the coarse answer of the demo bed as its first notebook asks for it. Exit code 1 when an error is above its bound.`;

type Known = ReturnType<typeof buriedCylinder>["rows"][number];

/** A run and the median time of some more. */
function timed(problem: Problem): { run: Run; milliseconds: number } {
  const run = simulateToEnd(problem);
  const more = Array.from({ length: TIMED_RUNS }, () => simulateToEnd(problem).milliseconds);
  return { run, milliseconds: median(more)! };
}

/** Largest error over the five times, percent; not a number when the run did not reach them all. */
function worst(run: Run, known: Known, name: "seepageLitres" | "wettedRadius" | "wettedDepth"): number {
  if (run.status !== "finished") return Number.NaN;
  return 100 * max(run.rows, (row, k) => Math.abs(row[name] / known[name][k]! - 1))!;
}

function report(known: Known, accuracy: Accuracy): boolean {
  const { run, milliseconds } = timed({ ...knownProblem(known), accuracy });
  const errors = (["seepageLitres", "wettedRadius", "wettedDepth"] as const).map((name) => worst(run, known, name));
  const bounds = Object.values(BOUNDS[accuracy]);
  const isGood = errors.every((error, k) => error <= bounds[k]!);
  const columns = [
    ...costs(known.name, accuracy, run, milliseconds),
    ...errors.map((error) => error.toFixed(2).padStart(7)),
    run.balanceError.toExponential(0).padStart(7),
    isGood ? "" : "  above its bound",
  ];
  console.log(columns.join(" "));
  return isGood;
}

const costs = (name: string, accuracy: Accuracy, { cells, steps }: Run, milliseconds: number) => [
  name.padEnd(26),
  accuracy.padEnd(9),
  String(cells).padStart(6),
  String(steps).padStart(6),
  milliseconds.toFixed(0).padStart(7),
];

function reportDemoBed(): void {
  const plan = soundValue(resolvePlan(demoPlan));
  for (const name of comparedSoils) {
    const problem = planToProblem(plan, { soil: meanOf(name), days: frameDays, accuracy: "live" });
    const { run, milliseconds } = timed(problem);
    console.log(costs(`demo bed in ${name}`, "live", run, milliseconds).join(" "));
  }
}

const { values } = parseArgs({ options: { accuracy: { type: "string" }, help: { type: "boolean" } } });
const asked = ACCURACIES.filter((accuracy) => accuracy === values.accuracy);
if (values.help) console.log(HELP);
else if (values.accuracy !== undefined && asked.length === 0) {
  console.error(`--accuracy is ${values.accuracy}; it must be one of ${ACCURACIES.join(", ")}`);
  process.exitCode = 2;
} else {
  const chosen = asked.length > 0 ? asked : (["live", "standard"] as const);
  console.log(`${"run".padEnd(26)} accuracy   cells  steps      ms  seep.%  radius%  depth% balance`);
  const outcomes = chosen.flatMap((accuracy) => buriedCylinder().rows.map((known) => report(known, accuracy)));
  if (asked.length === 0) reportDemoBed();
  process.exitCode = outcomes.every(Boolean) ? 0 : 1;
}
