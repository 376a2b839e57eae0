/** The page's one solver, in its own thread. Shared memory is missing on file://, so every order comes as a message. */
import { simulate } from "../../model/index.ts";
import { type Order, solveQueue } from "./solveQueue.ts";

const sliceMilliseconds = 16;

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
