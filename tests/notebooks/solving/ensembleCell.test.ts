import { describe, expect, it } from "vitest";
import type { Member, Outcome } from "../../../model/public/ensemble.ts";
import type { Plan } from "../../../model/public/plan.ts";
import {
  derive,
  type EnsembleAsk,
  type EnsembleOutcomes,
  type EnsembleSolver,
  ensemble,
  type Sink,
  source,
} from "../../../notebooks/runtime/cells.ts";
import { startCells } from "../../../notebooks/runtime/liveCells.ts";
import { settled } from "../../support/settled.ts";

const noSolver = { ask() {} };

const plan = { days: 14 } as Plan;
const member = (index: number) => ({ index }) as Member;
const outcome = (index: number) => ({ index, trouble: null }) as Outcome;

/** Keeps what was asked; outcomes are delivered by hand. */
function heldEnsembles() {
  const asked: { ask: EnsembleAsk<unknown>; sink: Sink<EnsembleOutcomes<unknown>> }[] = [];
  const dropped: number[] = [];
  let prepared = 0;
  const solver: EnsembleSolver = {
    prepare: () => prepared++,
    ask: (_rank, ask, sink) => asked.push({ ask, sink }),
    drop: (rank) => dropped.push(rank),
  };
  function gather(i: number, count: number, isStopped = false) {
    const { of, members } = asked[i]!.ask;
    const outcomes = members.slice(0, count).map(({ index }) => outcome(index));
    const total = members.length;
    asked[i]!.sink.deliver({ of, outcomes, total, isDone: count === total, isStopped });
  }
  return { asked, dropped, solver, gather, prepared: () => prepared };
}

describe("an ensemble cell", () => {
  const count = source<number>("count");
  const ask = derive({ count }, ({ count }) => {
    if (count < 0) throw new RangeError("count is negative");
    return {
      of: `${count} soils`,
      plan,
      members: Array.from({ length: count }, (_, i) => member(i)),
      task: { kind: "sowing" as const, sowingDay: 2 },
    };
  });
  const soils = ensemble(ask);
  const told = derive({ soils }, ({ soils: { of, outcomes, total, isDone, isStopped } }) =>
    [of, `${outcomes.length}/${total}`, isDone && "done", isStopped && "stopped"].filter(Boolean).join(" "),
  );

  function watched(solver: EnsembleSolver) {
    const cells = startCells(noSolver, solver);
    const [values, errors]: [string[], string[]] = [[], []];
    return {
      cells,
      values,
      errors,
      watch: () =>
        cells.watch(
          told,
          (value) => values.push(value),
          (error) => errors.push((error as Error).message),
        ),
    };
  }

  it("grows as outcomes arrive", async () => {
    const { solver, gather } = heldEnsembles();
    const { cells, values, watch } = watched(solver);
    cells.set(count, 3);
    watch();
    for (const n of [1, 2, 3]) {
      await settled();
      gather(0, n, n === 2);
    }
    await settled();
    expect(values).toEqual(["3 soils 1/3", "3 soils 2/3 stopped", "3 soils 3/3 done"]);
  });

  it("has its workers made ready when it is first needed, and not before", async () => {
    const { solver, prepared } = heldEnsembles();
    const { cells, watch } = watched(solver);
    cells.set(count, 3);
    expect(prepared()).toBe(0);
    watch();
    expect(prepared()).toBe(1);
  });

  it("keeps what it has, under the settings it belongs to, until the first outcomes of newer ones", async () => {
    const { solver, asked, gather } = heldEnsembles();
    const { cells, values, watch } = watched(solver);
    cells.set(count, 3);
    watch();
    await settled();
    gather(0, 3);
    await settled();
    cells.set(count, 2);
    await settled();
    expect(asked.map(({ ask }) => ask.of)).toEqual(["3 soils", "2 soils"]);
    expect(values).toEqual(["3 soils 3/3 done"]);
    gather(1, 1);
    await settled();
    expect(values.at(-1)).toBe("2 soils 1/2");
  });

  it("fails with its ask, drops what is under way, and recovers with the next outcomes", async () => {
    const { solver, dropped, gather } = heldEnsembles();
    const { cells, values, errors, watch } = watched(solver);
    cells.set(count, 3);
    watch();
    await settled();
    cells.set(count, -1);
    await settled();
    expect(dropped).toEqual([0]);
    expect(errors).toEqual(["count is negative"]);
    cells.set(count, 2);
    await settled();
    gather(1, 2);
    await settled();
    expect(values).toEqual(["2 soils 2/2 done"]);
  });

  it("fails in words when those who solve it break down, at once or later", async () => {
    const { solver, asked } = heldEnsembles();
    const { cells, errors, watch } = watched(solver);
    cells.set(count, 3);
    watch();
    await settled();
    asked[0]!.sink.fail(new Error("a helper broke down"));
    await settled();
    expect(errors).toEqual(["a helper broke down"]);
    const alone = startCells(noSolver);
    alone.set(count, 3);
    await expect(alone.value(told)).rejects.toThrow("nothing here that solves ensembles");
  });
});
