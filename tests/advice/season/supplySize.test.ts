import { expect, it } from "vitest";
import type { BedDays } from "../../../model/advice/season/seasonDemand.ts";
import { type BedDemand, seasonSupply, supplyYears } from "../../../model/advice/season/seasonSupply.ts";
import { carriedWith, leastRoof, leastTank, reliabilityGrid } from "../../../model/advice/season/supplySize.ts";
import { DAYS_OF_YEAR } from "../../../model/calendar/yearDays.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { REFILL } from "../../../model/supply/bedSupply.ts";
import { toEnd } from "../../../notebooks/runtime/toEnd.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

/** Days of the season, from day 200 of each year on, and of the rain before it, mm a day. */
const SEASON = { from: 200, days: 100 };
const DRAWN = 2;
const POTS = 5;

/** Held full by floats, drawing so much a day in the season; it rains on the first 100 days of each year alone. */
function asked(rainMm: readonly number[]): BedDemand {
  const length = rainMm.length * DAYS_OF_YEAR;
  const numbers = (make: (t: number) => number) => Float64Array.from({ length }, (_, t) => make(t));
  const isGrowing = (t: number) => t % DAYS_OF_YEAR >= SEASON.from && t % DAYS_OF_YEAR < SEASON.from + SEASON.days;
  const none = numbers(() => 0);
  const days: BedDays = {
    age: Int16Array.from({ length }, (_, t) => (isGrowing(t) ? (t % DAYS_OF_YEAR) - SEASON.from : -1)),
    ...{ wanted: none, fromRain: none, lacking: none, watered: none },
    drawnLitres: numbers((t) => (isGrowing(t) ? DRAWN : 0)),
    refill: Uint8Array.from({ length }, (_, t) => (isGrowing(t) ? REFILL.held : REFILL.away)),
  };
  const rain = numbers((t) => (t % DAYS_OF_YEAR < 100 ? rainMm[Math.floor(t / DAYS_OF_YEAR)]! : 0));
  return { weather: { rainMm: rain, EToMm: none }, days, pots: POTS };
}

const ROOF = { area: 100, runoff: 100, firstFlush: 0 };
const plan = (changes: object = {}): Plan => planOf({ roof: ROOF, ...changes });

/** Of a season in which no rain falls. What the pots are first filled with they give in the season's last days. */
const GIVEN = POTS * DRAWN * SEASON.days;

const SAME = Array.from({ length: 6 }, () => 5);

it("the least tank holds what the pots give in a dry season, to a fiftieth", () => {
  const own = plan();
  const litres = leastTank(own, asked(SAME), 1)!;
  expectClose(litres, 1.01 * GIVEN, { tolerance: 0.01 * GIVEN, unit: "L", what: "least tank" });
  expect(carriedWith(own, asked(SAME), { roofArea: own.roof.area, litres })).toBe(1);
  expect(carriedWith(own, asked(SAME), { roofArea: own.roof.area, litres: 0.98 * GIVEN })).toBe(0);
});

it("the least roof brings in the rain of a year what the season takes, to a fiftieth", () => {
  const squareMetres = GIVEN / (100 * SAME[0]!);
  const roof = leastRoof(plan({ tank: { volume: 5000 } }), asked(SAME), 1)! / 10_000;
  expectClose(roof, 1.01 * squareMetres, { tolerance: 0.0101 * squareMetres, unit: "m²", what: "least roof" });
});

it("no tank does where the roof brings too little, and no roof where the tank is too small", () => {
  expect(leastTank(plan({ roof: { ...ROOF, area: 1 } }), asked(SAME), 1)).toBeNull();
  expect(leastRoof(plan({ tank: { volume: 100 } }), asked(SAME), 1)).toBeNull();
});

it("a share of years leaves out the driest ones", () => {
  const years = [5, 5, 0.02, 5, 5, 5, 5, 5, 5, 5, 5];
  const own = plan({ tank: { volume: 1500 } });
  expect(leastTank(own, asked(years), 0.95)).toBeGreaterThan(leastTank(own, asked(years), 0.9)!);
  const carried = supplyYears(seasonSupply(own, asked(years))).map(({ shortDays }) => shortDays === 0);
  expect(carried).toEqual([true, false, true, true, true, true, true, true, true, true]);
  expect(carriedWith(own, asked(years), { roofArea: own.roof.area, litres: 1500 })).toBe(0.9);
});

it("on the grid of sizes neither a larger roof nor a larger tank carries fewer years", () => {
  const { roofs, tanks, share } = toEnd(reliabilityGrid(plan(), asked([5, 4, 3, 2, 1, 0.5])));
  expect(share).toHaveLength(roofs.length * tanks.length);
  const at = (row: number, column: number) => share[row * roofs.length + column]!;
  tanks.forEach((_, row) => {
    roofs.forEach((_, column) => {
      if (column > 0) expect(at(row, column)).toBeGreaterThanOrEqual(at(row, column - 1));
      if (row > 0) expect(at(row, column)).toBeGreaterThanOrEqual(at(row - 1, column));
    });
  });
  expect(new Set(share).size).toBeGreaterThan(3);
});
