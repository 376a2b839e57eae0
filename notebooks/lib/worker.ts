/**
 * The page's workers: one, named "runs", solves what the sliders ask for; those named "members" solve the members of
 * ensembles. Both are one script, so that a page which is one file holds the model only once more. Shared memory is
 * missing on file://, so every order comes as a message.
 */
import { simulate } from "../../model/index.ts";
import type { MemberOrder } from "./memberQueue.ts";
import { memberWork } from "./memberWork.ts";
import { type Order, solveQueue } from "./solveQueue.ts";

export type WorkerName = "runs" | "members";

const sliceMilliseconds = 16;

function workRuns() {
  const queue = solveQueue({ simulate, deliver: (delivery) => postMessage(delivery), now: () => performance.now() });
  const turns = new MessageChannel();
  const nextTurn = () => turns.port2.postMessage(null);
  let working = false;

  turns.port1.onmessage = () => {
    working = queue.work(sliceMilliseconds);
    if (working) nextTurn();
  };
  addEventListener("message", ({ data }: MessageEvent<Order>) => {
    queue.ask(data);
    if (!working) nextTurn();
    working = true;
  });
}

function workMembers() {
  const receive = memberWork((reply) => postMessage(reply));
  addEventListener("message", ({ data }: MessageEvent<MemberOrder>) => receive(data));
}

if ((self.name as WorkerName) === "members") workMembers();
else workRuns();
