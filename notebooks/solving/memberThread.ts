/** A thread of the terminal that solves members. */
import { parentPort } from "node:worker_threads";
import { memberWork } from "./memberWork.ts";
import { warmUp } from "./warmUp.ts";

parentPort!.on(
  "message",
  memberWork({
    reply: (reply) => parentPort!.postMessage(reply),
    afterListening: setImmediate,
    now: () => performance.now(),
    warmUp: warmUp(),
  }),
);
