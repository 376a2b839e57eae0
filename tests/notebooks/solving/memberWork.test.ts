import { describe, expect, it } from "vitest";
import type { memberCourse } from "../../../model/ensemble/task.ts";
import type { Member } from "../../../model/public/ensemble.ts";
import type { Plan } from "../../../model/public/plan.ts";
import type { MemberReply } from "../../../notebooks/solving/memberQueue.ts";
import { memberWork } from "../../../notebooks/solving/memberWork.ts";

const STEPS = 40;
const BROKEN = 7;

/** A member takes so many steps; its outcome is what it was asked for. The program fails half-way through one of them. */
const course = function* (plan: Plan, { index }: Member, { sowingDay }: { sowingDay: number }) {
  for (let step = 0; step < STEPS; step++) {
    if (index === BROKEN && step === STEPS / 2) throw new TypeError("no such soil");
    yield { day: step, lastDay: STEPS, step };
  }
  return { index, plan, sowingDay };
} as unknown as typeof memberCourse;

const plan = { name: "a bed" } as Plan;
const replyFor = (index: number) => ({ id: 10 + index, outcome: { index, plan, sowingDay: 2 } });

/** A worker with orders for members, whose turns come when called; every look at its clock costs 5 ms. */
function working(indices: readonly number[] = [0, 1, 2]) {
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
    course,
  });
  for (const index of indices) {
    const member = { index } as Member;
    receive({ kind: "solve", id: 10 + index, plan, member, task: { kind: "sowing", sowingDay: 2 } });
  }
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
  it("solves them one after another, each as it was asked for, and then rests", () => {
    const { replies, turn, turnsTo } = working();
    turnsTo(4);
    expect(replies).toEqual([0, 1, 2].map(replyFor));
    expect(turn()).toBe(false);
  });

  it("takes many turns for one member, and listens between them", () => {
    const { replies, turn } = working();
    for (let i = 0; i < 3; i++) turn();
    expect(replies).toEqual([]);
  });

  it("tells why the program failed on a member, and goes on with the next", () => {
    const { replies, turn, turnsTo } = working([0, BROKEN, 2]);
    turnsTo(4);
    expect(replies).toEqual([
      replyFor(0),
      { id: 10 + BROKEN, outcome: null, failed: "TypeError: no such soil" },
      replyFor(2),
    ]);
    expect(turn()).toBe(false);
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
    expect(replies.at(-1)).toEqual(replyFor(0));
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
    expect(replies).toEqual([0, 1, 2].map(replyFor));
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
