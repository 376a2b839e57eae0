import { describe, expect, it } from "vitest";
import { type PotGroup, REFILL, type SupplyDays, supplyBed } from "../../model/supply/bedSupply.ts";
import type { Tanks } from "../../model/supply/tanks.ts";

const tank: Tanks = { capacity: [1000], transfer: 0, topUp: null, useComes: "after spilling" };
const pots: PotGroup[] = [{ count: 2, capacity: 10, share: 1 }];
const { none, filled, held, away } = REFILL;

/** Days without rain; each pot gives `drawn` of them. */
const dry = (refill: number[], drawn: number | number[]): SupplyDays => ({
  inflow: refill.map(() => 0),
  evaporation: refill.map(() => 0),
  drawn: typeof drawn === "number" ? refill.map(() => drawn) : drawn,
  refill,
});

/** From a tank that holds so many litres of its thousand. */
const supplied = (litres: number, days: SupplyDays, groups = pots) => {
  const { asked, supplied: got, short, given, stored, ...rest } = supplyBed(tank, groups, days, litres / 1000);
  return { ...rest, asked: [...asked], supplied: [...got], short: [...short], given: [...given], stored: [...stored] };
};

describe("pots fed from a tank", () => {
  it("are filled in the morning of a filling day, and give what their ground draws from then on", () => {
    expect(supplied(1000, dry([filled, none, none, filled], 3))).toMatchObject({
      asked: [20, 0, 0, 18],
      supplied: [20, 0, 0, 18],
      given: [6, 6, 6, 6],
      short: [0, 0, 0, 0],
      stored: [980, 980, 980, 962],
      inPots: 14,
    });
  });

  it("that are held full take each day what they give", () => {
    expect(supplied(1000, dry([held, held, held], 3))).toMatchObject({
      asked: [26, 6, 6],
      given: [6, 6, 6],
      inPots: 20,
    });
  });

  it("that run empty though they were filled are not short of the tank's water", () => {
    expect(supplied(1000, dry([filled, none, none], 4))).toMatchObject({ given: [8, 8, 4], short: [0, 0, 0] });
  });

  it("fall short by what they would have given, had the tank filled them", () => {
    // 6 L each in place of 10.
    expect(supplied(12, dry([filled, none, none], 3))).toMatchObject({
      supplied: [12, 0, 0],
      given: [6, 6, 0],
      short: [0, 0, 6],
    });
  });

  it("fall short by no more than their filling lacked, where full ones would have run empty too", () => {
    // Full, each would give 4, 4 and 2 L; with 7.5 L in it, 4 and 3.5.
    const { given, short } = supplied(15, dry([filled, none, none, none], 4));
    expect(given).toEqual([8, 7, 0, 0]);
    expect(short).toEqual([0, 1, 4, 0]);
  });

  it("fall short of a day's whole giving while held by an empty tank", () => {
    expect(supplied(0, dry([held, held], 3))).toMatchObject({ given: [0, 0], short: [6, 6] });
  });

  it("share what there is in proportion to what each lacks", () => {
    const groups = [
      { count: 1, capacity: 10, share: 1 },
      { count: 2, capacity: 10, share: 0.5 },
    ];
    // Lacking after a day: 4 L in one pot, 2 L in each of two; half of it is there, so that 8, 9 and 9 L are in them.
    const { given, short } = supplied(34, dry([filled, filled, none, none, none, none], 4), groups);
    expect(given).toEqual([8, 8, 8, 4, 4, 2]);
    expect(short).toEqual([0, 0, 0, 2, 0, 2]);
  });

  it("lose what is left in them when the season ends, and begin the next one empty", () => {
    const { leftInPots, asked, inPots } = supplied(1000, dry([filled, away, away, filled], [3, 0, 0, 3]));
    expect(leftInPots).toBe(14);
    expect(asked).toEqual([20, 0, 0, 20]);
    expect(inPots).toBe(14);
  });

  it("are short of nothing more once their season has ended", () => {
    expect(supplied(0, dry([filled, none, away, none], 3)).short).toEqual([6, 6, 0, 0]);
  });

  it("that nothing draws from ask for nothing once they are full", () => {
    expect(supplied(1000, dry([filled, filled], 0)).asked).toEqual([20, 0]);
  });
});
