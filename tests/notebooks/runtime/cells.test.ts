import { describe, expect, it } from "vitest";
import type { Problem, Run } from "../../../model/public/flow.ts";
import {
  type Ask,
  derive,
  type Sink,
  type Solved,
  type Solver,
  solution,
  source,
} from "../../../notebooks/runtime/cells.ts";
import { type LiveCells, startCells } from "../../../notebooks/runtime/liveCells.ts";
import { settled } from "../../support/settled.ts";

/** Keeps what was asked; results are delivered by hand. */
function heldSolver() {
  const asked: { ask: Ask<unknown>; sink: Sink<Solved<unknown>> }[] = [];
  const solver: Solver = { ask: (_key, ask, sink) => asked.push({ ask, sink }) };
  const answer = (i: number, cells: number) =>
    asked[i]!.sink.deliver({
      of: asked[i]!.ask.of,
      accuracy: "live",
      runs: { one: { status: "finished", cells } as Run },
    });
  return { asked, solver, answer };
}

function watched<T>(cells: LiveCells, cell: Parameters<typeof cells.watch<T>>[0]) {
  const values: T[] = [];
  const errors: unknown[] = [];
  cells.watch(
    cell,
    (value) => values.push(value),
    (error) => errors.push(error),
  );
  return { values, errors };
}

const noSolver: Solver = { ask: () => {} };

/** Until the promises of a few cells are kept, within one turn. */
async function promisesKept() {
  for (let k = 0; k < 50; k++) await null;
}

describe("cells", () => {
  it("compute again when a source changes", async () => {
    const a = source<number>("a");
    const b = source<number>("b");
    const sum = derive({ a, b }, ({ a, b }) => a + b);
    const cells = startCells(noSolver);
    cells.set(a, 1);
    cells.set(b, 2);
    const { values } = watched(cells, sum);
    await settled();
    cells.set(b, 5);
    await settled();
    expect(values).toEqual([3, 6]);
  });

  it("compute before the next turn, once for all that was set, and no more when they are stopped", async () => {
    const [a, b] = [source<number>("a"), source<number>("b")];
    const computed: number[] = [];
    const sum = derive({ a, b }, ({ a, b }) => computed.push(a + b));
    const cells = startCells(noSolver);
    let turns = 0;
    setImmediate(() => turns++);
    cells.set(a, 1);
    cells.set(b, 2);
    watched(cells, sum);
    await promisesKept();
    cells.set(a, 3);
    cells.set(b, 4);
    await promisesKept();
    expect(computed).toEqual([3, 7]);
    expect(turns, "a version of the runtime that waits in another way").toBe(0);
    cells.set(a, 5);
    cells.stop();
    await settled();
    expect(computed).toEqual([3, 7]);
  });

  it("do not compute again when a source is set to an equal value", async () => {
    const a = source<{ x: number }>("a");
    const cells = startCells(noSolver);
    cells.set(a, { x: 1 });
    const { values } = watched(
      cells,
      derive({ a }, ({ a }) => a.x),
    );
    await settled();
    cells.set(a, { x: 1 });
    await settled();
    expect(values).toEqual([1]);
  });

  it("do not compute again, nor tell a watcher, when what was picked from an input stays the same", async () => {
    const a = source<{ x: number; y: number }>("a");
    const cells = startCells(noSolver);
    const computed: number[] = [];
    const x = derive({ a }, ({ a }) => a.x);
    const costly = derive({ x }, ({ x }) => {
      computed.push(x);
      return { x };
    });
    cells.set(a, { x: 1, y: 1 });
    const { values } = watched(cells, costly);
    for (const next of [
      { x: 1, y: 2 },
      { x: 3, y: 2 },
    ]) {
      await settled();
      cells.set(a, next);
    }
    await settled();
    expect(computed).toEqual([1, 3]);
    expect(values).toEqual([{ x: 1 }, { x: 3 }]);
  });

  it("say which source was used before it was set", () => {
    const cells = startCells(noSolver);
    expect(() =>
      watched(
        cells,
        derive({ a: source<number>("depth") }, ({ a }) => a),
      ),
    ).toThrow(/"depth"/);
  });

  it("hand an error to the watcher and recover with the next good value", async () => {
    const a = source<number>("a");
    const cells = startCells(noSolver);
    cells.set(a, -1);
    const root = derive({ a }, ({ a }) => {
      if (a < 0) throw new RangeError("a is negative");
      return Math.sqrt(a);
    });
    const { values, errors } = watched(cells, root);
    await settled();
    cells.set(a, 9);
    await settled();
    expect(errors.map((error) => (error as Error).message)).toEqual(["a is negative"]);
    expect(values).toEqual([3]);
  });
});

describe("a solution", () => {
  const a = source<number>("a");
  const solved = solution(derive({ a }, ({ a }) => ({ of: a, problems: { one: { startHead: a } as Problem } })));
  const told = derive({ solved }, ({ solved: { of, runs } }) => `${of}: ${runs.one!.cells}`);

  it("is shown with the settings it was asked for, though newer ones were set before its first result", async () => {
    const { solver, answer, asked } = heldSolver();
    const cells = startCells(solver);
    cells.set(a, 1);
    const { values } = watched(cells, told);
    await settled();
    cells.set(a, 2);
    await settled();
    expect(asked.map(({ ask }) => ask.of)).toEqual([1, 2]);
    answer(0, 10);
    await settled();
    answer(1, 20);
    await settled();
    expect(values).toEqual(["1: 10", "2: 20"]);
  });

  it("is shown again when a finer result comes", async () => {
    const { solver, answer } = heldSolver();
    const cells = startCells(solver);
    cells.set(a, 1);
    const { values } = watched(cells, told);
    await settled();
    answer(0, 10);
    await settled();
    answer(0, 30);
    await settled();
    expect(values).toEqual(["1: 10", "1: 30"]);
  });

  it("fails when its ask fails, and recovers with the next result", async () => {
    const { solver, answer } = heldSolver();
    const failing = solution(
      derive({ a }, ({ a }) => {
        if (a < 0) throw new RangeError("a is negative");
        return { of: a, problems: {} };
      }),
    );
    const cells = startCells(solver);
    cells.set(a, -1);
    const { values, errors } = watched(
      cells,
      derive({ failing }, ({ failing: { of } }) => of),
    );
    await settled();
    cells.set(a, 4);
    await settled();
    answer(0, 1);
    await settled();
    expect(errors.map((error) => (error as Error).message)).toEqual(["a is negative"]);
    expect(values).toEqual([4]);
  });

  it("fails when the solver throws at once", async () => {
    const cells = startCells({
      ask() {
        throw new Error("no solver");
      },
    });
    cells.set(a, 1);
    await expect(cells.value(told)).rejects.toThrow("no solver");
  });
});
