import { describe, expect, it } from "vitest";
import type { Problem, Run } from "../../../model/public/flow.ts";
import type { Delivery, Order } from "../../../notebooks/solving/solveQueue.ts";
import { type Busy, workerSolver } from "../../../notebooks/solving/solvers.ts";

const problems = { own: {} as Problem };
const runs = { own: { status: "finished" } as Run };

/** A page's solver before a worker whose messages are written by hand. */
function working() {
  const orders: Order[] = [];
  const told: Busy[] = [];
  const heard: string[] = [];
  const worker = { postMessage: (order: Order) => orders.push(order), onmessage: null as unknown };
  const solver = workerSolver(worker as unknown as Worker, (busy) => told.push(busy));
  const ask = (of: string, isCoarseEnough = false) =>
    solver.ask(
      0,
      { of, problems, isCoarseEnough },
      {
        deliver: ({ of, accuracy }) => heard.push(`${of}: ${accuracy}`),
        fail: (error) => heard.push(`${of}: ${(error as Error).message}`),
      },
    );
  const say = (data: Delivery) => (worker.onmessage as (event: { data: Delivery }) => void)({ data });
  return { ask, say, orders, heard, told };
}

describe("a page's solver", () => {
  it("labels each result with the settings that it was asked for", () => {
    const { ask, say, orders, heard, told } = working();
    ask("first");
    ask("second");
    const [first, second] = orders.map(({ id }) => id) as [number, number];
    say({ rank: 0, id: first, accuracy: "live", runs });
    expect(told.at(-1)).toEqual({ isBusy: true, isAwaited: true });
    say({ rank: 0, id: second, accuracy: "live", runs });
    expect(told.at(-1)).toEqual({ isBusy: true, isAwaited: false });
    say({ rank: 0, id: second, accuracy: "standard", runs });
    expect(heard).toEqual(["first: live", "second: live", "second: standard"]);
    expect(told.at(-1)).toEqual({ isBusy: false, isAwaited: false });
  });

  it("is done after a coarse result where that is enough", () => {
    const { ask, say, orders, told } = working();
    ask("a sketch", true);
    say({ rank: 0, id: orders[0]!.id, accuracy: "live", runs });
    expect(told.at(-1)).toEqual({ isBusy: false, isAwaited: false });
  });

  it("fails an ask in words where the program failed on it, waits for nothing more, and solves the next", () => {
    const { ask, say, orders, heard, told } = working();
    ask("broken");
    say({ rank: 0, id: orders[0]!.id, accuracy: "live", failed: "TypeError: no such soil" });
    expect(heard).toEqual([expect.stringMatching(/^broken: .* broke down \(TypeError: no such soil\)/)]);
    expect(told.at(-1)).toEqual({ isBusy: false, isAwaited: false });
    ask("sound");
    say({ rank: 0, id: orders[1]!.id, accuracy: "live", runs });
    expect(heard.at(-1)).toBe("sound: live");
  });
});
