/** Another checkout of this project, its code in the same process as ours. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { gridStore as GridStoreOf } from "../../../model/flow/gridStore.ts";
import type { Run, simulateToEnd as Simulate } from "../../../model/public/flow.ts";
import type * as PlanEntry from "../../../model/public/plan.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import type * as Threads from "../../../notebooks/solving/threads.ts";
import type * as EnsembleModule from "../ensembleFigures.ts";
import type { Side } from "./compare.ts";
import { cpuClock } from "./inTurns.ts";

/** What cannot be compared at all, and why. */
export class NoComparison extends Error {}

export interface Checkout extends Side<Run> {
  /** An ensemble of the demo bed by its own code, in threads of its own: by the clock, and by the processors' time. */
  ensemble(): Promise<EnsembleModule.EnsembleFigures & { cpuMilliseconds: number }>;
}

/** `folder` is absolute. */
export async function checkoutSide(folder: string): Promise<Checkout> {
  const simulateToEnd = await exported<typeof Simulate>(folder, "simulateToEnd");
  const gridStore = await exported<typeof GridStoreOf>(folder, "gridStore");
  const kept = gridStore();
  return {
    solve(problem, grid) {
      const grids = grid === "kept" ? kept : gridStore();
      const clock = cpuClock();
      const run = simulateToEnd(problem, undefined, { grids });
      const milliseconds = clock();
      if (run.status !== "finished") throw new Error(`the run ${run.status}: ${JSON.stringify(run.trouble)}`);
      return { run, milliseconds };
    },
    ensemble: () => ensembleOf(folder),
  };
}

async function ensembleOf(folder: string): ReturnType<Checkout["ensemble"]> {
  const { resolvePlan, soundValue } = await moduleAt<typeof PlanEntry>(folder, "model/public/plan.ts");
  const { threadQueue } = await moduleAt<typeof Threads>(folder, "notebooks/solving/threads.ts");
  const { ensembleFigures } = await moduleAt<typeof EnsembleModule>(folder, "tests/bench/ensembleFigures.ts");
  const clock = cpuClock();
  const queue = threadQueue();
  try {
    const figures = await ensembleFigures(soundValue(resolvePlan(demoPlan)), queue);
    return { ...figures, cpuMilliseconds: clock() };
  } finally {
    queue.end();
  }
}

/** By file URL, so that each checkout keeps modules of its own. */
function moduleAt<M>(folder: string, file: string): Promise<M> {
  const path = join(folder, file);
  if (!existsSync(path)) throw new NoComparison(`${folder} is no checkout of this project: it has no ${file}.`);
  return import(pathToFileURL(path).href);
}

const ENTRY = "model/public/flow.ts";

/** A function of the flow's entry, or else of the file of the model that has it: files move. */
async function exported<F>(folder: string, name: string): Promise<F> {
  const entry = await moduleAt<Record<string, F>>(folder, ENTRY);
  if (entry[name]) return entry[name];
  const declared = new RegExp(`^export (?:function\\*? |const )${name}\\b`, "m");
  const file = readdirSync(join(folder, "model"), { recursive: true, encoding: "utf8" })
    .map((path) => join("model", path))
    .find((path) => path.endsWith(".ts") && declared.test(readFileSync(join(folder, path), "utf8")));
  if (!file) throw new NoComparison(`${folder} has no ${name}, neither in ${ENTRY} nor in another file of model/.`);
  return (await moduleAt<Record<string, F>>(folder, file))[name]!;
}
