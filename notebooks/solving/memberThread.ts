/** A thread of the terminal that solves members. */
import { parentPort } from "node:worker_threads";
import { memberWork } from "./memberWork.ts";
import { warmUp } from "./warmUp.ts";

const port = parentPort;
if (!port) throw new Error("This file is run by a thread.");

port.on(
  "message",
  memberWork({
    reply: (reply) => port.postMessage(reply),
    afterListening: setImmediate,
    now: () => performance.now(),
    warmUp: warmUp(),
  }),
);
