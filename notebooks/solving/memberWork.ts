import { memberCourse } from "../../model/ensemble/task.ts";
import { type GridStore, gridStore } from "../../model/flow/gridStore.ts";
import type { MemberOrder, MemberReply } from "./memberQueue.ts";

type SolveOrder = Extract<MemberOrder, { kind: "solve" }>;

/** What a worker does at a stretch before it listens again, milliseconds. */
const SLICE = 16;

interface MemberWorkOptions {
  reply(reply: MemberReply): void;
  /** Calls back once what has come in meanwhile has been received. */
  afterListening(turn: () => void): void;
  now(): number;
  /** Done until the first order comes. */
  warmUp?: Iterator<unknown>;
}

/** What a worker does with the orders it receives: one member after another, listening in between. */
export function memberWork({ reply, afterListening, now, warmUp }: MemberWorkOptions): (order: MemberOrder) => void {
  const grids = gridStore();
  const waiting: SolveOrder[] = [];
  let underWay: { id: number; course: ReturnType<typeof memberCourse> } | undefined;
  let isPaused = false;
  let isTurnDue = false;
  let isCold = warmUp !== undefined;

  function nextTurn() {
    if (isTurnDue || isPaused || !(isCold || underWay || waiting.length > 0)) return;
    isTurnDue = true;
    afterListening(turn);
  }
  function turn() {
    isTurnDue = false;
    if (isCold) isCold = !warmUp!.next().done;
    else if (!isPaused) work(now() + SLICE);
    nextTurn();
  }
  function work(end: number) {
    underWay ??= begin(waiting.shift(), grids);
    while (underWay && now() < end) {
      const { done, value } = underWay.course.next();
      if (!done) continue;
      reply({ id: underWay.id, outcome: value });
      underWay = undefined;
    }
  }
  function giveBack(isUseless: boolean) {
    const useless = isUseless && underWay ? [underWay] : [];
    if (isUseless) underWay = undefined;
    for (const { id } of [...useless, ...waiting.splice(0)]) reply({ id, outcome: null });
  }
  function receive(order: MemberOrder) {
    isCold = false;
    if (order.kind === "solve") waiting.push(order);
    else if (order.kind === "giveBack") giveBack(order.isUseless);
    else isPaused = order.kind === "pause";
    nextTurn();
  }
  nextTurn();
  return receive;
}

function begin(order: SolveOrder | undefined, grids: GridStore) {
  return order && { id: order.id, course: memberCourse(order.plan, order.member, order.task, grids) };
}
