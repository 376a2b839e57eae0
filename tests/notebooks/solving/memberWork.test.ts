import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { drawMembers, SOIL_GROUPS, solveMember } from "../../../model/public/ensemble.ts";
import { type Plan, resolvePlan } from "../../../model/public/plan.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import type { MemberReply } from "../../../notebooks/solving/memberQueue.ts";
import { memberWork } from "../../../notebooks/solving/memberWork.ts";

const plan: Plan = soundValue(resolvePlan(demoPlan));
const members = drawMembers(plan, { count: 3, seed: 1, varied: SOIL_GROUPS });
const outcomes = members.map((member) => solveMember(plan, member, { kind: "sowing", sowingDay: 2 }));

/** A worker with orders for three members, whose turns come when called; every look at its clock costs 5 ms. */
function working() {
  let time = 0;
  let due: (() => void) | undefined;
  const replies: MemberReply[] = [];
  const receive = memberWork({
    reply: (reply) => replies.push(reply),
    afterListening(turn) {
      expect(due, "one turn at a time").toBeUndefined();
      due = turn;
    },
    now() {
      time += 5;
      return time;
    },
  });
  for (const member of members)
    receive({ kind: "solve", id: 10 + member.index, plan, member, task: { kind: "sowing", sowingDay: 2 } });
  /** False where no turn is due. */
  function turn() {
    const next = due;
    due = undefined;
    next?.();
    return next !== undefined;
  }
  function turnsTo(count: number) {
    while (replies.length < count && turn());
  }
  return { receive, replies, turn, turnsTo, time: () => time };
}

describe("a worker for members", () => {
  it("solves them one after another, as they are solved without a halt, and then rests", () => {
    const { replies, turn, turnsTo } = working();
    turnsTo(4);
    expect(replies).toEqual(members.map(({ index }) => ({ id: 10 + index, outcome: outcomes[index] })));
    expect(turn()).toBe(false);
  });

  it("takes many turns for one member, and listens between them", () => {
    const { replies, turn } = working();
    for (let i = 0; i < 3; i++) turn();
    expect(replies).toEqual([]);
  });

  it("gives back at once what it has not begun, and finishes what it has", () => {
    const { receive, replies, turn, turnsTo } = working();
    turn();
    receive({ kind: "giveBack", isUseless: false });
    expect(replies).toEqual([
      { id: 11, outcome: null },
      { id: 12, outcome: null },
    ]);
    turnsTo(3);
    expect(replies.at(-1)).toEqual({ id: 10, outcome: outcomes[0] });
    expect(turn()).toBe(false);
  });

  it("leaves off in the middle of a member that is of no more use, and rests", () => {
    const { receive, replies, turn } = working();
    turn();
    receive({ kind: "giveBack", isUseless: true });
    expect(replies).toEqual([10, 11, 12].map((id) => ({ id, outcome: null })));
    turn();
    expect(turn()).toBe(false);
  });

  it("halts in the middle of a member when it is paused, and goes on with it to the same outcome", () => {
    const { receive, replies, turn, turnsTo, time } = working();
    turn();
    receive({ kind: "pause" });
    const before = time();
    for (let i = 0; i < 1000; i++) turn();
    expect(time(), "time that passed while it was paused").toBe(before);
    expect(replies).toEqual([]);
    receive({ kind: "goOn" });
    turnsTo(3);
    expect(replies.map(({ outcome }) => outcome)).toEqual(outcomes);
  });

  it("warms up while it has nothing to do, a step a turn, and leaves off at the first order", () => {
    for (const { steps, turns, done } of [
      { steps: 5, turns: 3, done: 3 },
      { steps: 2, turns: 5, done: 2 },
    ]) {
      let due: (() => void) | undefined;
      let warmed = 0;
      const warmUp = (function* () {
        while (warmed < steps) yield warmed++;
      })();
      const receive = memberWork({
        reply() {},
        afterListening(turn) {
          due = turn;
        },
        now: () => 0,
        warmUp,
      });
      for (let i = 0; i < turns; i++) {
        const next = due;
        due = undefined;
        next?.();
      }
      expect(warmed).toBe(done);
      receive({ kind: "goOn" });
      due?.();
      expect(warmed).toBe(done);
    }
  });
});
