import { solveMember } from "../../model/index.ts";
import type { MemberOrder, MemberReply } from "./memberQueue.ts";

type SolveOrder = Extract<MemberOrder, { kind: "solve" }>;

/** What a worker does with the orders it receives: one member after another, listening in between. */
export function memberWork(reply: (reply: MemberReply) => void): (order: MemberOrder) => void {
  const turns = new MessageChannel();
  const nextTurn = () => turns.port2.postMessage(null);
  const waiting: SolveOrder[] = [];

  turns.port1.onmessage = () => {
    const order = waiting.shift();
    if (!order) return;
    const { id, plan, member, sowingDay } = order;
    reply({ id, outcome: solveMember(plan, member, sowingDay) });
    if (waiting.length > 0) nextTurn();
  };
  return (order) => {
    if (order.kind === "giveBack") for (const { id } of waiting.splice(0)) reply({ id, outcome: null });
    else if (waiting.push(order) === 1) nextTurn();
  };
}
