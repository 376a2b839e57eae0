import { describe, expect, it } from "vitest";
import { noTotals, stepTanks, type TankDay, type Tanks } from "../../model/supply/tanks.ts";

const one: Tanks = { capacity: [100], transfer: 0, topUp: null, useComes: "before spilling" };
const DRY: TankDay = { inflow: 0, evaporation: 0, ask: 0 };

/** A step from what is stored: what is stored after it, what was supplied, and the totals. */
function stepped(tanks: Tanks, before: number[], day: Partial<TankDay>) {
  const stored = Float64Array.from(before);
  const totals = noTotals();
  const supplied = stepTanks(tanks, stored, { ...DRY, ...day }, totals);
  return { ...totals, stored: [...stored], supplied };
}

describe("a tank", () => {
  it("gives what is asked while it has it, and then what is left", () => {
    expect(stepped(one, [50], { ask: 30 })).toMatchObject({ supplied: 30, stored: [20] });
    expect(stepped(one, [50], { ask: 80 })).toMatchObject({ supplied: 50, stored: [0] });
  });

  it("spills what it has no room for", () => {
    expect(stepped(one, [70], { inflow: 60 })).toMatchObject({ spilled: 30, stored: [100] });
  });

  it("that is used before it spills gives the day's rain as well, and makes room for it", () => {
    expect(stepped(one, [70], { inflow: 60, ask: 90 })).toMatchObject({ supplied: 90, spilled: 0, stored: [40] });
  });

  it("that is used after it spills gives no more than stood there before, and has lost what overflowed", () => {
    const after: Tanks = { ...one, useComes: "after spilling" };
    expect(stepped(after, [70], { inflow: 60, ask: 90 })).toMatchObject({ supplied: 70, spilled: 30, stored: [30] });
    expect(stepped(after, [0], { inflow: 60, ask: 90 })).toMatchObject({ supplied: 0, spilled: 0, stored: [60] });
  });

  it("without a lid loses water to the air, after the bed has had its own, and never more than there is", () => {
    expect(stepped(one, [50], { ask: 30, evaporation: 5 })).toMatchObject({
      supplied: 30,
      evaporated: 5,
      stored: [15],
    });
    expect(stepped(one, [50], { ask: 48, evaporation: 5 })).toMatchObject({ supplied: 48, evaporated: 2, stored: [0] });
  });

  const toppedUp: Tanks = { ...one, topUp: { belowShare: 0.2, litres: 50 } };

  it("is topped up by hand below its mark alone, and while the bed asks", () => {
    expect(stepped(toppedUp, [19], { ask: 10 })).toMatchObject({ topUp: 50, supplied: 10, stored: [59] });
    expect(stepped(toppedUp, [20], { ask: 10 })).toMatchObject({ topUp: 0, stored: [10] });
    expect(stepped(toppedUp, [0], { ask: 0 })).toMatchObject({ topUp: 0, stored: [0] });
  });

  it("is topped up with no more than it has room for", () => {
    const much = { ...toppedUp, topUp: { belowShare: 0.5, litres: 300 } };
    expect(stepped(much, [40], { ask: 10 })).toMatchObject({ topUp: 60, spilled: 0, stored: [90] });
  });
});

describe("tanks in a chain", () => {
  const three: Tanks = { ...one, capacity: [100, 50, 20], transfer: 15 };

  it("catch what overflows one after the other, and spill what the last has no room for", () => {
    expect(stepped(three, [90, 0, 0], { inflow: 40 })).toMatchObject({ spilled: 0, stored: [100, 30, 0] });
    expect(stepped(three, [90, 40, 0], { inflow: 50 })).toMatchObject({ spilled: 10, stored: [100, 50, 20] });
  });

  it("give back what the one before has room for, no more a day than is moved", () => {
    expect(stepped(three, [100, 50, 20], { ask: 10 }).stored).toEqual([100, 50, 10]);
    expect(stepped(three, [100, 50, 20], { ask: 60 }).stored).toEqual([55, 50, 5]);
    expect(stepped(three, [100, 4, 0], { ask: 60 }).stored).toEqual([44, 0, 0]);
    expect(stepped({ ...three, transfer: 0 }, [0, 50, 20], { ask: 60 }).stored).toEqual([0, 50, 20]);
  });

  it("feed the bed from the first alone: water that stands behind comes the day after", () => {
    expect(stepped(three, [0, 50, 20], { ask: 60 })).toMatchObject({ supplied: 0, stored: [15, 50, 5] });
  });
});
