import { memberCourse } from "../../model/ensemble/task.ts";
import { gridStore } from "../../model/flow/gridStore.ts";
import type { MemberOrder, MemberReply } from "./memberQueue.ts";

type SolveOrder = Extract<MemberOrder, { kind: "solve" }>;

/** What a worker does at a stretch before it listens again, milliseconds. */
const SLICE = 16;

interface UnderWay {
  id: number;
  course: ReturnType<typeof memberCourse>;
}

interface MemberWorkOptions {
  reply(reply: MemberReply): void;
  /** Calls back once what has come in meanwhile has been received. */
  afterListening(turn: () => void): void;
  now(): number;
  /** Done until the first order comes. */
  warmUp?: Iterator<unknown>;
  course?: typeof memberCourse;
}

/** What a worker does with the orders it receives: one member after another, listening in between. */
export function memberWork(options: MemberWorkOptions): (order: MemberOrder) => void {
  const { reply, afterListening, now, warmUp, course = memberCourse } = options;
  const grids = gridStore();
  const waiting: SolveOrder[] = [];
  let underWay: UnderWay | undefined;
  let isPaused = false;
  let isTurnDue = false;
  let cold = warmUp;

  function nextTurn() {
    if (isTurnDue || isPaused || !(cold || underWay || waiting.length > 0)) return;
    isTurnDue = true;
    afterListening(turn);
  }
  function turn() {
    isTurnDue = false;
    if (cold) cold = cold.next().done ? undefined : cold;
    else if (!isPaused) work(now() + SLICE);
    nextTurn();
  }
  function begin(order: SolveOrder | undefined): UnderWay | undefined {
    return order && { id: order.id, course: course(order.plan, order.member, order.task, grids) };
  }
  function work(end: number) {
    underWay ??= begin(waiting.shift());
    while (underWay && now() < end) {
      const answer = step(underWay);
      if (!answer) continue;
      reply(answer);
      underWay = undefined;
    }
  }
  function giveBack(isUseless: boolean) {
    const useless = isUseless && underWay ? [underWay] : [];
    if (isUseless) underWay = undefined;
    for (const { id } of [...useless, ...waiting.splice(0)]) reply({ id, outcome: null });
  }
  function receive(order: MemberOrder) {
    cold = undefined;
    if (order.kind === "solve") waiting.push(order);
    else if (order.kind === "giveBack") giveBack(order.isUseless);
    else isPaused = order.kind === "pause";
    nextTurn();
  }
  nextTurn();
  return receive;
}

/** Nothing before the last step. What the program throws costs this member alone, so that the worker can go on. */
function step({ id, course }: UnderWay): MemberReply | undefined {
  try {
    const { done, value } = course.next();
    return done ? { id, outcome: value } : undefined;
  } catch (error) {
    return { id, outcome: null, failed: String(error) };
  }
}
