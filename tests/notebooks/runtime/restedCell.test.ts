import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { derive, rested, type Solver, source } from "../../../notebooks/runtime/cells.ts";
import { startCells } from "../../../notebooks/runtime/liveCells.ts";
import { whenStill } from "../../../notebooks/runtime/whenStill.ts";
import { settled } from "../../support/settled.ts";

const noSolver: Solver = { ask: () => {} };

/** Holds the newest work until it is told to go on. */
function held() {
  const works = new Map<number, Iterator<void>>();
  return {
    later: (rank: number, work: Iterator<void>) => void works.set(rank, work),
    goOn: () => {
      for (const work of works.values()) while (!work.next().done);
      works.clear();
    },
  };
}

describe("a rested cell", () => {
  it("keeps its last value while its input moves, and is computed from the newest one alone", async () => {
    const { later, goOn } = held();
    const a = source<number>("a");
    const computed: number[] = [];
    const square = rested(a, function* (a) {
      computed.push(a);
      yield;
      return { of: a, square: a ** 2 };
    });
    const cells = startCells(noSolver, undefined, later);
    cells.set(a, 2);
    const shown: string[] = [];
    cells.watch(
      derive({ a, square }, ({ a, square }) => `${a}: ${square.of} squared is ${square.square}`),
      (text) => shown.push(text),
      () => {},
    );
    await settled();
    expect(shown).toEqual([]);
    goOn();
    await settled();
    cells.set(a, 3);
    await settled();
    cells.set(a, 5);
    await settled();
    goOn();
    await settled();
    cells.stop();
    expect(computed).toEqual([2, 5]);
    expect(shown).toEqual(["2: 2 squared is 4", "3: 2 squared is 4", "5: 2 squared is 4", "5: 5 squared is 25"]);
  });

  it("has a first value until it is computed, and none where nothing puts it off", async () => {
    const { later, goOn } = held();
    const a = source<number>("a");
    const square = rested(
      a,
      function* (a): Generator<void, number | null> {
        yield;
        return a ** 2;
      },
      null,
    );
    const cells = startCells(noSolver, undefined, later);
    cells.set(a, 2);
    const shown: (number | null)[] = [];
    cells.watch(
      square,
      (value) => shown.push(value),
      () => {},
    );
    await settled();
    goOn();
    await settled();
    cells.set(a, 3);
    await settled();
    goOn();
    await settled();
    cells.stop();
    expect(shown).toEqual([null, 4, 9]);
    const direct = startCells(noSolver);
    direct.set(a, 4);
    expect(await direct.value(square)).toBe(16);
    direct.stop();
  });

  it("is computed at once where nothing puts it off, and tells what went wrong", async () => {
    const a = source<number>("a");
    const cells = startCells(noSolver);
    cells.set(a, 2);
    expect(
      await cells.value(
        rested(a, function* (a) {
          yield;
          return a + 1;
        }),
      ),
    ).toBe(3);
    const fails = rested(a, function* (): Generator<void, number> {
      yield;
      throw new Error("no such number");
    });
    await expect(cells.value(fails)).rejects.toThrow("no such number");
    cells.stop();
  });
});

describe("work that is put off", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it("is done once, when nothing more has come under its rank for a moment, and all ranks tell when they are done", () => {
    const done: string[] = [];
    const waiting: boolean[] = [];
    const later = whenStill((isWaiting) => waiting.push(isWaiting));
    const put = (rank: number, name: string) =>
      later(
        rank,
        (function* () {
          done.push(`${name} begun`);
          yield;
          done.push(`${name} done`);
        })(),
      );
    put(0, "first");
    vi.advanceTimersByTime(150);
    put(0, "second");
    vi.advanceTimersByTime(150);
    put(1, "other");
    expect(done).toEqual([]);
    vi.advanceTimersByTime(100);
    expect(done).toEqual(["second begun", "second done"]);
    expect(waiting.at(-1)).toBe(true);
    vi.advanceTimersByTime(200);
    expect(done.slice(2)).toEqual(["other begun", "other done"]);
    expect(waiting.at(-1)).toBe(false);
  });

  it("is left where it stands when newer work comes", () => {
    const done: number[] = [];
    const later = whenStill(() => {});
    function* counting() {
      for (let k = 0; k < 100; k++) {
        done.push(k);
        yield;
      }
    }
    later(0, counting());
    vi.advanceTimersByTime(200);
    vi.advanceTimersToNextTimer();
    expect(done).toEqual([0, 1]);
    later(0, [].values());
    vi.advanceTimersByTime(1000);
    expect(done).toEqual([0, 1]);
  });
});
