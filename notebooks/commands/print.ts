/** `npm run print`: a notebook's text, drawings and numbers as files, without a browser. */
import { readFile } from "node:fs/promises";
import { pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { RuntimeError } from "@observablehq/runtime";
import type { Fault } from "../../model/public/plan.ts";
import { type Filled, filledOfText, initialFilled, readPlan } from "../form/planForm.ts";
import { evaluate } from "../notebook/evaluate.ts";
import type { Notebook } from "../notebook/notebook.ts";
import { applyOptions, helpText, optionsOf } from "../print/printOptions.ts";
import { notebooks } from "../questions/list.ts";
import { directSolver } from "../solving/solvers.ts";
import { threadQueue } from "../solving/threads.ts";
import { words } from "../words/words.ts";

class BadInput extends Error {}

async function main(args: string[]) {
  const notebook = notebooks.find(({ name }) => name === args[0]);
  if (args.length === 0 || args.includes("--help")) return console.log(helpText(notebooks, notebook));
  if (!notebook)
    throw new BadInput(`There is no notebook "${args[0]}"; known are ${notebooks.map(({ name }) => name).join(", ")}.`);
  const { out, plan, ...given } = readOptions(notebook, args.slice(1));
  if (!out) throw new BadInput("--out is missing; it must be a folder to write to.");
  const start = plan ? must(filledOfText(await readPlanFile(plan))) : initialFilled(undefined);
  const filled = must(applyOptions(notebook, start, given));
  const { writePrint } = await import("../print/printFiles.ts");
  const files = await writePrint(notebook, await run(notebook, filled), filled, out);
  console.log(files.join("\n"));
}

function readOptions(notebook: Notebook, args: string[]) {
  try {
    return parseArgs({ args, options: optionsOf(notebook), strict: true }).values as Record<string, string | undefined>;
  } catch (error) {
    throw new BadInput((error as Error).message);
  }
}

async function readPlanFile(path: string) {
  try {
    return await readFile(path, "utf8");
  } catch {
    throw new BadInput(`--plan is "${path}"; it must be a file that can be read.`);
  }
}

async function run(notebook: Notebook, filled: Filled) {
  const solver = directSolver({
    onProgress: (name, { day, lastDay }) => progress(`${name}: day ${day.toFixed(1)} of ${lastDay}`),
  });
  const ensembles = threadQueue({
    onlyDone: true,
    onProgress: (now) => now && progress(words.counted(now.count, now.total)),
  });
  const inputs = { plan: must(readPlan(filled)), units: filled.units, view: filled.settings };
  try {
    return await evaluate(notebook, inputs, solver, ensembles);
  } finally {
    ensembles.end();
    progress("");
  }
}

function progress(text: string) {
  if (process.stderr.isTTY) process.stderr.write(`\r\x1b[K${text}`);
}

function must<T>(checked: { ok: true; value: T } | { ok: false; faults: Pick<Fault, "message">[] }): T {
  if (checked.ok) return checked.value;
  throw new BadInput(checked.faults.map(({ message }) => message).join("\n"));
}

/** Writes the files and gives the exit code. */
export async function print(args: string[]): Promise<number> {
  try {
    await main(args);
    return 0;
  } catch (error) {
    if (!(error instanceof BadInput || error instanceof RuntimeError)) throw error;
    const isBadInput = error instanceof BadInput;
    console.error(isBadInput ? error.message : `${words.cannotWorkOut} ${error.message}`);
    return isBadInput ? 2 : 1;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
  process.exitCode = await print(process.argv.slice(2));
