/**
 * The page's workers: one, named "runs", solves what the sliders ask for; those named "members" solve the members of
 * ensembles. Both are one script, so that a page which is one file holds the model only once more. Shared memory is
 * missing on file://, so every order comes as a message.
 */
import { gridStore } from "../../model/flow/gridStore.ts";
import { simulate } from "../../model/flow/simulate.ts";
import type { MemberOrder } from "./memberQueue.ts";
import { memberWork } from "./memberWork.ts";
import { type Order, solveQueue } from "./solveQueue.ts";
import { warmUp } from "./warmUp.ts";

export type WorkerName = "runs" | "members";

const sliceMilliseconds = 16;

const now = () => performance.now();
const reply = (message: unknown) => postMessage(message);

/** Calls back after the messages that have come in meanwhile. */
function turnTaker(turn: () => void): () => void {
  const turns = new MessageChannel();
  turns.port1.onmessage = turn;
  return () => turns.port2.postMessage(null);
}

function workRuns() {
  const grids = gridStore();
  const queue = solveQueue({ simulate: (problem) => simulate(problem, { grids }), deliver: reply, now });
  let working = false;
  const nextTurn = turnTaker(() => {
    working = queue.work(sliceMilliseconds);
    if (working) nextTurn();
  });
  addEventListener("message", ({ data }: MessageEvent<Order>) => {
    queue.ask(data);
    if (!working) nextTurn();
    working = true;
  });
}

function workMembers() {
  let due = () => {};
  const nextTurn = turnTaker(() => due());
  function afterListening(turn: () => void) {
    due = turn;
    nextTurn();
  }
  const receive = memberWork({ reply, afterListening, now, warmUp: warmUp() });
  addEventListener("message", ({ data }: MessageEvent<MemberOrder>) => receive(data));
}

if ((self.name as WorkerName) === "members") workMembers();
else workRuns();
