import { range } from "d3-array";
import { describe, expect, it, vi } from "vitest";
import { drawMembers, type Member, type Outcome, SOIL_GROUPS, solveMember } from "../../../model/public/ensemble.ts";
import type { EnsembleAsk, EnsembleOutcomes } from "../../../notebooks/runtime/cells.ts";
import {
  type EnsembleProgress,
  type MemberOrder,
  type MemberQueueOptions,
  memberQueue,
  type WorkerEvents,
} from "../../../notebooks/solving/memberQueue.ts";
import { threadQueue } from "../../../notebooks/solving/threads.ts";
import { planned } from "../../advice/handMade.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const PLAN = planOf({ name: "a bed" });

const membersTo = (count: number) => range(count).map((index) => ({ index, startHead: -index }) as Member);

const sow = (sowingDay: number) => ({ kind: "sowing" as const, sowingDay });

const askFor = (count: number, rest: Partial<EnsembleAsk<unknown>> = {}): EnsembleAsk<unknown> => ({
  of: `${count}`,
  plan: PLAN,
  members: membersTo(count),
  task: sow(2),
  ...rest,
});

interface Bench {
  events: WorkerEvents;
  waiting: Extract<MemberOrder, { kind: "solve" }>[];
  isPaused: boolean;
  isEnded: boolean;
}

function post(own: Bench, order: MemberOrder) {
  if (order.kind === "solve") own.waiting.push(order);
  else if (order.kind !== "giveBack") own.isPaused = order.kind === "pause";
  // The first is under way.
  else for (const { id } of own.waiting.splice(order.isUseless ? 0 : 1)) own.events.replied({ id, outcome: null });
}

/** Workers that do one member at a time when told to, under a clock that is moved by hand. */
function bench(options: Partial<MemberQueueOptions> = {}) {
  let time = 0;
  let timers: { call(): void; at: number }[] = [];
  const benches: Bench[] = [];
  const solved: number[] = [];
  const progress: (EnsembleProgress | null)[] = [];
  const queue = memberQueue({
    workers: 2,
    now: () => time,
    later: (call, milliseconds) => timers.push({ call, at: time + milliseconds }),
    onProgress: (now) => progress.push(now),
    start(events) {
      const own: Bench = { events, waiting: [], isPaused: false, isEnded: false };
      benches.push(own);
      return { post: (order) => post(own, order), end: () => (own.isEnded = true) };
    },
    ...options,
  });
  /** Worker `w` finishes what it has under way. */
  function finish(w: number) {
    const own = benches[w]!;
    const order = own.isPaused ? undefined : own.waiting.shift();
    if (!order) return false;
    solved.push(order.member.index);
    own.events.replied({ id: order.id, outcome: { index: order.member.index, trouble: null } as Outcome });
    return true;
  }
  /** The program fails on what worker `w` has under way. */
  function fail(w: number, failed: string) {
    const { id } = benches[w]!.waiting.shift()!;
    benches[w]!.events.replied({ id, outcome: null, failed });
  }
  function pass(milliseconds: number) {
    time += milliseconds;
    const due = timers.filter(({ at }) => at <= time);
    timers = timers.filter(({ at }) => at > time);
    for (const { call } of due) call();
  }
  const finishAll = () => {
    while ([finish(0), finish(1)].includes(true));
  };
  const delivered: EnsembleOutcomes<unknown>[] = [];
  /** Asks of which was told that nothing is in yet. */
  const begun: unknown[] = [];
  const failed: string[] = [];
  const sink = {
    deliver: (gathered: EnsembleOutcomes<unknown>) =>
      isEmpty(gathered) ? begun.push(gathered.of) : delivered.push(gathered),
    fail: (error: unknown) => failed.push((error as Error).message),
  };
  const ask = (next: EnsembleAsk<unknown>, rank = 0) => queue.ask(rank, next, sink);
  const counts = () => delivered.map(({ outcomes }) => outcomes.length);
  return { queue, ask, finish, fail, finishAll, pass, benches, solved, delivered, begun, counts, failed, progress };
}

const isEmpty = ({ outcomes, isDone, isStopped }: EnsembleOutcomes<unknown>) =>
  outcomes.length === 0 && !isDone && !isStopped;

const indices = ({ outcomes }: EnsembleOutcomes<unknown>) => outcomes.map(({ index }) => index);

describe("the member queue", () => {
  it("starts no worker before one is needed, and then as many as it may", () => {
    const { queue, benches } = bench();
    expect(benches.length).toBe(0);
    queue.prepare();
    expect(benches.length).toBe(2);
  });

  it("gives every worker one member and one to wait, and another for each that comes back", () => {
    const { ask, finish, benches } = bench();
    ask(askFor(20));
    expect(benches.map(({ waiting }) => waiting.map(({ member }) => member.index))).toEqual([
      [0, 2],
      [1, 3],
    ]);
    finish(1);
    expect(benches[1]!.waiting.map(({ member }) => member.index)).toEqual([3, 4]);
  });

  it("tells outcomes in the order of the members, whichever came first", () => {
    const { ask, finish, finishAll, solved, delivered } = bench();
    ask(askFor(12));
    for (let i = 0; i < 6; i++) finish(1);
    finishAll();
    expect(solved).not.toEqual(range(12));
    expect(indices(delivered.at(-1)!)).toEqual(range(12));
    expect(delivered.at(-1)).toMatchObject({ of: "12", total: 12, isDone: true, isStopped: false });
  });

  it("tells at once that nothing is in yet where there is nothing older to show, and only there", () => {
    const { ask, finishAll, begun, delivered } = bench();
    ask(askFor(20));
    expect(begun).toEqual(["20"]);
    ask(askFor(30));
    finishAll();
    ask(askFor(12), 1);
    expect(begun).toEqual(["20"]);
    expect(delivered.at(-1)).toMatchObject({ of: "12", isDone: true });
    const quiet = bench({ onlyDone: true });
    quiet.ask(askFor(20));
    expect(quiet.begun).toEqual([]);
  });

  it("delivers from ten members on, five times a second at most, and at once when all are in", () => {
    const { ask, finish, pass, counts } = bench();
    ask(askFor(100));
    const step = () => {
      pass(10);
      finish(0);
    };
    for (let i = 0; i < 9; i++) step();
    expect(counts()).toEqual([]);
    step();
    expect(counts()).toEqual([10]);
    for (let i = 0; i < 41; i++) step();
    pass(200);
    expect(counts().slice(0, 4)).toEqual([10, 29, 49, 51]);
    pass(1000);
    expect(counts().length).toBe(4);
    for (let i = 0; i < 49; i++) finish(0) || finish(1);
    expect(counts().at(-1)).toBe(100);
  });

  it("delivers an ensemble of fewer than ten once, and only finished ones where asked to", () => {
    for (const [size, options] of [
      [4, {}],
      [50, { onlyDone: true }],
    ] as const) {
      const { ask, finishAll, pass, counts } = bench(options);
      ask(askFor(size));
      finishAll();
      pass(1000);
      expect(counts()).toEqual([size]);
    }
  });

  it("drops an ask at once when one for another bed comes: none of its members is finished or told", () => {
    const { ask, finish, finishAll, solved, delivered } = bench();
    ask(askFor(20, { of: "old" }));
    finish(0);
    ask(askFor(20, { of: "new", task: sow(5) }));
    finishAll();
    expect(solved.length).toBe(1 + 20);
    expect(delivered.every(({ of }) => of === "new")).toBe(true);
  });

  it("finishes what is under way when other members of the same bed are asked for", () => {
    const { ask, finish, finishAll, solved, delivered } = bench();
    ask(askFor(20, { of: "old" }));
    finish(0);
    ask({ ...askFor(0), of: "new", members: membersTo(30).slice(20) });
    finishAll();
    expect(solved.toSorted((a, b) => a - b)).toEqual([0, 1, 2, ...range(20, 30)]);
    expect(indices(delivered.at(-1)!)).toEqual(range(20, 30));
  });

  it("goes on where it was when an ask differs by name, notes or units alone, and tells it under the new settings", () => {
    const { ask, finish, finishAll, solved, delivered } = bench();
    const renamed = planOf({ name: "", notes: "-" });
    ask(askFor(20, { of: "first" }));
    for (let i = 0; i < 6; i++) finish(0) && finish(1);
    ask(askFor(20, { of: "second", plan: renamed }));
    expect(delivered.at(-1)).toMatchObject({ of: "second", total: 20 });
    expect(delivered.at(-1)!.outcomes.length).toBe(12);
    finishAll();
    expect(solved.length).toBe(20);
  });

  it("begins a larger ensemble with the members it knows, and answers at once when settings come back", () => {
    const { ask, finishAll, solved, counts } = bench();
    ask(askFor(12));
    finishAll();
    ask(askFor(30));
    expect(counts().at(-1)).toBe(12);
    finishAll();
    expect(solved.length).toBe(30);
    ask(askFor(12, { task: sow(9) }));
    finishAll();
    ask(askFor(30));
    expect(counts().at(-1)).toBe(30);
    expect(solved.length).toBe(42);
  });

  it("keeps what it knows of one task apart from another task of the same bed and the same members", () => {
    const { ask, finishAll, solved, counts } = bench();
    ask(askFor(12));
    finishAll();
    ask(askFor(12, { task: { kind: "spacing", near: 60 } }));
    finishAll();
    expect(solved.length).toBe(24);
    ask(askFor(12));
    expect(counts().at(-1)).toBe(12);
    expect(solved.length).toBe(24);
  });

  it("knows a bed again after a slider has passed over many others", () => {
    const { ask, finishAll, solved, delivered } = bench();
    ask(askFor(12));
    finishAll();
    for (const sowingDay of range(10, 40)) ask(askFor(12, { task: sow(sowingDay) }));
    ask(askFor(12, { of: "back again" }));
    expect(delivered.at(-1)).toMatchObject({ of: "back again", isDone: true });
    expect(solved.length).toBe(12);
  });

  it("halts what is under way and hands out nothing while held, and goes on when let go", () => {
    const { queue, ask, finish, finishAll, benches, solved } = bench();
    ask(askFor(20));
    finish(0);
    queue.hold(true);
    finishAll();
    expect(solved).toEqual([0]);
    expect(benches.map(({ waiting }) => waiting.map(({ member }) => member.index))).toEqual([[2], [1]]);
    queue.hold(false);
    finishAll();
    expect(solved.toSorted((a, b) => a - b)).toEqual(range(20));
  });

  it("stops with the outcomes so far, says so, and goes on without solving any twice", () => {
    const { queue, ask, finish, finishAll, solved, delivered, progress } = bench();
    ask(askFor(20));
    for (let i = 0; i < 4; i++) finish(0);
    queue.stop();
    expect(delivered.at(-1)).toMatchObject({ isStopped: true, isDone: false });
    expect(delivered.at(-1)!.outcomes.length).toBe(4);
    finishAll();
    expect(solved.length).toBe(6);
    expect(delivered.at(-1)).toMatchObject({ isStopped: true });
    expect(progress.at(-1)).toEqual({ count: 6, total: 20, state: "stopped" });
    queue.goOn();
    expect(progress.at(-1)!.state).toBe("working");
    finishAll();
    expect(solved.toSorted((a, b) => a - b)).toEqual(range(20));
    expect(delivered.at(-1)).toMatchObject({ isStopped: false, isDone: true });
    expect(progress.at(-1)).toEqual({ count: 20, total: 20, state: "done" });
  });

  it("starts afresh, not stopped, with other settings", () => {
    const { queue, ask, finishAll, delivered } = bench();
    ask(askFor(20));
    queue.stop();
    ask(askFor(20, { task: sow(3) }));
    finishAll();
    expect(delivered.at(-1)).toMatchObject({ isStopped: false, isDone: true });
  });

  it("stays stopped when the same is asked again", () => {
    const { queue, ask, finishAll, solved, delivered } = bench();
    ask(askFor(20));
    queue.stop();
    ask(askFor(20, { of: "again" }));
    finishAll();
    expect(solved.length).toBe(2);
    expect(delivered.at(-1)).toMatchObject({ of: "again", isStopped: true });
  });

  it("solves what a lower rank asks for before a higher one", () => {
    const { ask, finishAll, delivered } = bench();
    ask(askFor(20, { of: "later", task: sow(8) }), 1);
    ask(askFor(20, { of: "first" }), 0);
    finishAll();
    expect(delivered.filter(({ isDone }) => isDone).map(({ of }) => of)).toEqual(["first", "later"]);
  });

  it("leaves off when a rank is dropped", () => {
    const { queue, ask, finishAll, solved, delivered, progress } = bench();
    ask(askFor(20));
    queue.drop(0);
    finishAll();
    expect(solved.length).toBe(0);
    expect(delivered).toEqual([]);
    expect(progress.at(-1)).toBeNull();
  });

  it("fails in words when a worker dies, ends the others, and starts new ones for the next ask", () => {
    const { ask, finishAll, benches, failed, delivered } = bench();
    ask(askFor(20));
    benches[0]!.events.broke("out of memory");
    expect(failed).toEqual([expect.stringMatching(/broke down \(out of memory\)/)]);
    expect(benches.map(({ isEnded }) => isEnded)).toEqual([true, true]);
    benches[1]!.events.broke("ended");
    expect(failed.length).toBe(1);
    ask(askFor(4));
    expect(benches.length).toBe(4);
    for (const order of benches[2]!.waiting) expect(order.member.index).toBeLessThan(4);
    expect(delivered).toEqual([]);
    finishAll();
  });
});

describe("a member on which the program fails", () => {
  it("fails its ask in words, at once and once; the workers live and go on with the next", () => {
    const { ask, fail, finishAll, benches, solved, failed, delivered } = bench();
    ask(askFor(20));
    fail(1, "TypeError: no soil");
    expect(failed).toEqual([expect.stringMatching(/broke down \(TypeError: no soil\)/)]);
    finishAll();
    expect(solved).toEqual([]);
    ask(askFor(12, { of: "next" }));
    finishAll();
    expect(benches.map(({ isEnded }) => isEnded)).toEqual([false, false]);
    expect(delivered.at(-1)).toMatchObject({ of: "next", isDone: true });
    expect(failed.length).toBe(1);
  });

  it("fails no ask that does not hold it", () => {
    const { ask, fail, finishAll, failed, delivered } = bench();
    ask(askFor(20, { of: "sound", task: sow(5) }), 1);
    ask(askFor(20, { of: "broken" }), 0);
    finishAll();
    ask(askFor(40, { of: "larger, broken" }), 0);
    fail(0, "RangeError");
    finishAll();
    expect(failed.length).toBe(1);
    expect(delivered.filter(({ isDone }) => isDone).map(({ of }) => of)).toEqual(["broken", "sound"]);
  });
});

describe("the work of the queue itself", () => {
  it("is as little for each member of many as for each of few", () => {
    const looks = (members: number) => {
      const spies = [vi.spyOn(Set.prototype, "has"), vi.spyOn(Map.prototype, "has"), vi.spyOn(Map.prototype, "get")];
      const { ask, finishAll, counts } = bench({ onlyDone: true });
      try {
        ask(askFor(members));
        finishAll();
        return spies.reduce((sum, spy) => sum + spy.mock.calls.length, 0) / members;
      } finally {
        for (const spy of spies) spy.mockRestore();
        expect(counts()).toEqual([members]);
      }
    };
    expect(looks(2000)).toBeLessThan(1.1 * looks(200));
  });
});

describe("threads", () => {
  const finished = (queue: ReturnType<typeof threadQueue>, ask: EnsembleAsk<unknown>) =>
    new Promise<EnsembleOutcomes<unknown>>((resolve, fail) => queue.ask(0, ask, { deliver: resolve, fail }));

  it("solve members as they are solved here, tell of a fault of the program, and go on after it", async () => {
    const plan = planned({ filling: { kind: "once" } });
    const members = drawMembers(plan, { count: 3, seed: 1, varied: SOIL_GROUPS });
    // This thread takes every other member, the first among them.
    const queue = threadQueue({ onlyDone: true, workers: 2 });
    const unsolvable = members.map((member) =>
      member.index === 1 ? { ...member, soil: undefined } : member,
    ) as Member[];
    await expect(finished(queue, askFor(0, { plan, members: unsolvable }))).rejects.toThrow(/broke down \(TypeError: /);
    const { outcomes, isDone } = await finished(queue, askFor(0, { plan, members }));
    queue.end();
    expect(isDone).toBe(true);
    expect(outcomes).toEqual(members.map((member) => solveMember(plan, member, sow(2))));
  });

  // Nothing is handed out while the queue is held, so that this thread cannot be done before the other is heard.
  it.each([
    ["throws", "throw new Error('no more memory')", /broke down \(Error: no more memory\)/],
    ["ends", "process.exit(3)", /broke down \(it ended with code 3\)/],
  ])("that %s are told in words and keep nobody waiting", async (_, code, words) => {
    const queue = threadQueue({ file: new URL(`data:text/javascript,${code}`), workers: 2, onlyDone: true });
    queue.hold(true);
    await expect(finished(queue, askFor(5))).rejects.toThrow(words);
    queue.end();
  });
});
