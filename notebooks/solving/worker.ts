/**
 * The page's workers: one, named "runs", solves what the sliders ask for, and members of ensembles that are asked for
 * through a port sent to it; those named "members" solve nothing else. Both are one script, so that a page which is one
 * file holds the model only once more. Shared memory is missing on file://, so every order comes as a message.
 */
import { gridStore } from "../../model/flow/gridStore.ts";
import { simulate } from "../../model/flow/simulate.ts";
import type { MemberOrder, MemberReply } from "./memberQueue.ts";
import { memberWork } from "./memberWork.ts";
import { type Order, solveQueue } from "./solveQueue.ts";
import { warmUp } from "./warmUp.ts";

export type WorkerName = "runs" | "members";

const sliceMilliseconds = 16;

const now = () => performance.now();

/** Calls back after the messages that have come in meanwhile. */
function turnTaker(turn: () => void): () => void {
  const turns = new MessageChannel();
  turns.port1.onmessage = turn;
  return () => turns.port2.postMessage(null);
}

function workRuns() {
  const grids = gridStore();
  const queue = solveQueue({
    simulate: (problem) => simulate(problem, { grids }),
    deliver: (delivery) => postMessage(delivery),
    now,
  });
  let working = false;
  const nextTurn = turnTaker(() => {
    working = queue.work(sliceMilliseconds);
    if (working) nextTurn();
  });
  addEventListener("message", ({ data, ports: [members] }: MessageEvent<Order>) => {
    if (members) return workMembersOf(members);
    queue.ask(data);
    if (!working) nextTurn();
    working = true;
  });
}

/** No need to warm up: what it has solved for the sliders did. */
function workMembersOf(port: MessagePort) {
  const receive = memberReceiver((message) => port.postMessage(message));
  port.onmessage = ({ data }: MessageEvent<MemberOrder>) => receive(data);
}

function workMembers() {
  const receive = memberReceiver((message) => postMessage(message), warmUp());
  addEventListener("message", ({ data }: MessageEvent<MemberOrder>) => receive(data));
}

function memberReceiver(reply: (message: MemberReply) => void, warmUp?: Iterator<unknown>) {
  let due = () => {};
  const nextTurn = turnTaker(() => due());
  function afterListening(turn: () => void) {
    due = turn;
    nextTurn();
  }
  return memberWork({ reply, afterListening, now, ...(warmUp && { warmUp }) });
}

if ((self.name as WorkerName) === "members") workMembers();
else workRuns();
