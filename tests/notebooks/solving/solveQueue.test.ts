import { describe, expect, it } from "vitest";
import type { Problem, Run } from "../../../model/public/flow.ts";
import { type Delivery, type Simulate, solveQueue } from "../../../notebooks/solving/solveQueue.ts";

/** A start on which the program fails. */
const UNSOLVABLE = -666;

const cellsOf = (runs: Record<string, Run>) => Object.values(runs).map(({ cells }) => cells);

/** A clock that moves on with every step of a run; a coarse run takes 4 steps, a fine one 40, each of 10 ms. */
function bench() {
  let time = 0;
  const delivered: string[] = [];
  const begun: string[] = [];
  const simulate: Simulate = function* ({ startHead, accuracy }) {
    begun.push(`${accuracy} ${startHead}`);
    if (startHead === UNSOLVABLE) throw new TypeError("no such soil");
    for (let step = 1; step <= (accuracy === "live" ? 4 : 40); step++) {
      time += 10;
      yield { day: step, lastDay: 40, step };
    }
    return { cells: startHead } as Run;
  };
  const deliver = ({ accuracy, rank, ...solution }: Delivery) =>
    delivered.push(`${rank} ${accuracy} ${"failed" in solution ? solution.failed : cellsOf(solution.runs)}`);
  const queue = solveQueue({ simulate, deliver, now: () => time });
  let id = 0;
  const ask = (startHead: number, rank = 0, isCoarseEnough = false) =>
    queue.ask({ rank, id: ++id, problems: { one: { startHead } as Problem }, isCoarseEnough });
  const finish = () => {
    while (queue.work(16));
  };
  return { ask, queue, finish, delivered, begun };
}

describe("the solve queue", () => {
  it("gives a coarse solution first and then the standard one", () => {
    const { ask, finish, delivered } = bench();
    ask(-1);
    finish();
    expect(delivered).toEqual(["0 live -1", "0 standard -1"]);
  });

  it("gives a coarse solution alone where that is enough", () => {
    const { ask, finish, delivered } = bench();
    ask(-1, 0, true);
    finish();
    expect(delivered).toEqual(["0 live -1"]);
  });

  it("finishes a coarse run that has begun, then takes only the newest of the asks that came meanwhile", () => {
    const { ask, queue, finish, delivered, begun } = bench();
    ask(-1);
    queue.work(16);
    ask(-2);
    ask(-3);
    ask(-4);
    finish();
    expect(delivered).toEqual(["0 live -1", "0 live -4", "0 standard -4"]);
    expect(begun).toEqual(["live -1", "live -4", "standard -4"]);
  });

  it("redraws while a slider moves all the time", () => {
    const { ask, queue, delivered } = bench();
    for (let i = 1; i <= 60; i++) {
      ask(-i);
      queue.work(16);
    }
    expect(delivered.length).toBeGreaterThan(15);
    expect(delivered.every((line) => line.startsWith("0 live"))).toBe(true);
  });

  it("drops a standard run as soon as its settings are out of date", () => {
    const { ask, queue, finish, delivered } = bench();
    ask(-1);
    for (let i = 0; i < 6; i++) queue.work(16);
    expect(delivered).toEqual(["0 live -1"]);
    ask(-2);
    finish();
    expect(delivered).toEqual(["0 live -1", "0 live -2", "0 standard -2"]);
  });

  it("solves every rank coarsely before it solves any of them finely", () => {
    const { ask, finish, delivered } = bench();
    ask(-1, 0);
    ask(-2, 1);
    finish();
    expect(delivered).toEqual(["0 live -1", "1 live -2", "0 standard -1", "1 standard -2"]);
  });

  it("lets a lower rank go first even when a higher one asked before it", () => {
    const { ask, queue, finish, delivered } = bench();
    ask(-2, 1);
    ask(-1, 0);
    finish();
    ask(-4, 1);
    queue.work(16);
    ask(-3, 0);
    finish();
    expect(delivered.filter((line) => line.includes("live"))).toEqual([
      "0 live -1",
      "1 live -2",
      "0 live -3",
      "1 live -4",
    ]);
  });

  it("answers at once, without solving again, when settings come back", () => {
    const { ask, finish, begun, delivered } = bench();
    ask(-1);
    finish();
    ask(-2);
    finish();
    ask(-1);
    finish();
    expect(begun).toEqual(["live -1", "standard -1", "live -2", "standard -2"]);
    expect(delivered.slice(-2)).toEqual(["0 live -1", "0 standard -1"]);
  });

  it("tells why the program failed on an ask, once, and goes on with the next", () => {
    const { ask, queue, finish, delivered, begun } = bench();
    ask(UNSOLVABLE);
    ask(-1, 1);
    finish();
    expect(delivered).toEqual(["0 live TypeError: no such soil", "1 live -1", "1 standard -1"]);
    ask(-2);
    finish();
    expect(delivered.slice(3)).toEqual(["0 live -2", "0 standard -2"]);
    expect(queue.work(16)).toBe(false);
    ask(UNSOLVABLE);
    finish();
    expect(begun.filter((each) => each === `live ${UNSOLVABLE}`).length, "a failure is not remembered").toBe(2);
  });

  it("goes on with the ask that waited for one on which the program failed", () => {
    const { ask, finish, delivered } = bench();
    ask(UNSOLVABLE);
    ask(-2);
    finish();
    expect(delivered).toEqual(["0 live TypeError: no such soil", "0 live -2", "0 standard -2"]);
  });

  it("tells when there is nothing left to do", () => {
    const { ask, queue, finish } = bench();
    expect(queue.work(16)).toBe(false);
    ask(-1);
    expect(queue.work(16)).toBe(true);
    finish();
    expect(queue.work(16)).toBe(false);
  });
});
