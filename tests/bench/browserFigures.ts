/** The test problem in a browser's worker, beside Node on the same machine. */
import { fileURLToPath } from "node:url";
import { build, type Rollup } from "vite";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import type { Accuracy, Problem } from "../../model/flow/problem.ts";
import { startBrowser } from "../browser/browser.ts";
import { knownProblem } from "../support/problems.ts";
import type { Figure } from "./measure.ts";

export interface BrowserFigures {
  runs: { name: string; accuracy: Accuracy; milliseconds: number; ratio: number }[];
}

export async function browserFigures(inNode: readonly Figure[], tell: (what: string) => void): Promise<BrowserFigures> {
  const asked = inNode.filter(({ accuracy }) => accuracy !== "reference");
  tell("the same runs in a browser");
  const times = await timesInWorker(asked.map(problemOf));
  return {
    runs: asked.map(({ name, accuracy, milliseconds }, k) => ({
      name,
      accuracy,
      milliseconds: times[k]!,
      ratio: times[k]! / milliseconds,
    })),
  };
}

function problemOf({ name, accuracy }: Figure): Problem {
  return { ...knownProblem(buriedCylinder().rows.find((known) => known.name === name)!), accuracy };
}

/** Median milliseconds of each problem, solved in one worker. */
async function timesInWorker(problems: Problem[]): Promise<number[]> {
  const code = await workerCode();
  const browser = await startBrowser();
  try {
    const page = await browser.newPage();
    return await page.evaluate(
      ({ code, problems }) =>
        new Promise<number[]>((resolve, reject) => {
          const worker = new Worker(URL.createObjectURL(new Blob([code], { type: "text/javascript" })));
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = ({ message }) => reject(new Error(message));
          worker.postMessage(problems);
        }),
      { code, problems },
    );
  } finally {
    await browser.close();
  }
}

async function workerCode(): Promise<string> {
  const entry = fileURLToPath(new URL("./timingWorker.ts", import.meta.url));
  const built = (await build({
    configFile: false,
    logLevel: "warn",
    build: { write: false, lib: { entry, formats: ["iife"], name: "timing" } },
  })) as Rollup.RollupOutput[];
  return built[0]!.output[0].code;
}
