/** A thread that tries one plan after another, and says before each run what comes: it may never come back from it. */
import { parentPort } from "node:worker_threads";
import { drawnPlan } from "./drawnPlan.ts";
import { type Finding, trialsOf } from "./triedPlan.ts";

export interface Order {
  seed: number;
  number: number;
}

export type Report =
  | { kind: "begins"; name: string }
  /** CPU seconds. */
  | { kind: "ended"; name: string; seconds: number; findings: Finding[] }
  | { kind: "done"; refused: number };

const port = parentPort!;
const tell = (report: Report) => port.postMessage(report);

port.on("message", ({ seed, number }: Order) => {
  tell({ kind: "begins", name: "plan" });
  const { plan, refused } = drawnPlan(seed, number);
  tell({ kind: "begins", name: "problems" });
  for (const { name, work } of trialsOf(plan)) {
    tell({ kind: "begins", name });
    const before = process.cpuUsage();
    const findings = work();
    const { user, system } = process.cpuUsage(before);
    tell({ kind: "ended", name, seconds: (user + system) / 1e6, findings });
  }
  tell({ kind: "done", refused });
});
