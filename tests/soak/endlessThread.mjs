/** Stands in for a thread that tries plans: plan 0 finds a run too slow, plan 1 never ends, plan 2 breaks the thread. */
import { parentPort } from "node:worker_threads";

parentPort.on("message", ({ number }) => {
  parentPort.postMessage({ kind: "begins", name: "bare" });
  if (number === 1) for (;;);
  if (number === 2) throw new Error("broken");
  parentPort.postMessage({ kind: "ended", name: "bare", seconds: 11, findings: [] });
  parentPort.postMessage({ kind: "done", refused: 3 });
});
