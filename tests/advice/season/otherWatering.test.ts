import { expect, it } from "vitest";
import { dripHelp, savedBeside, seasonWater } from "../../../model/advice/season/otherWatering.ts";
import type { BedDays } from "../../../model/advice/season/seasonDemand.ts";
import { DAYS_OF_YEAR } from "../../../model/calendar/yearDays.ts";
import { otherWatering, rowNamed } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

/** 1 m² to each pot: 1 mm is 1 L. */
const plan = planOf({ spacing: 100 });
const YEARS = 2;

/** A hundred days a year on which plants want 4 mm, of which rain brings 1, pots leave `lacking`, and pots give 5 L. */
function days(lacking: number): BedDays {
  const length = YEARS * DAYS_OF_YEAR;
  const on = (value: number) => Float64Array.from({ length }, (_, t) => (t % DAYS_OF_YEAR < 100 ? value : 0));
  return {
    age: new Int16Array(length),
    wanted: on(4),
    fromRain: on(1),
    lacking: on(lacking),
    watered: on(5),
    drawnLitres: on(5),
    refill: new Uint8Array(length),
  };
}

it("a season's water of the bed is that of its pots' ground, by year", () => {
  const { pots, wanted, fromRain, net, surface, drip } = seasonWater(plan, days(0), 3);
  const close = (is: number, should: number, what: string) =>
    expectClose(is, should, { tolerance: 1e-9 * should, unit: "L", what });
  close(pots, 1500, "pots");
  close(wanted, 1200, "wanted");
  close(fromRain, 300, "from rain");
  close(net, 1200, "watered from above, less the rain");
  close(surface.least, 1200 / 0.8, "surface at best");
  close(surface.most, 1200 / 0.5, "surface at worst");
  close(drip.least, 1200 / 0.95, "drip at best");
  close(drip.most, 1200 / 0.7, "drip at worst");
});

it("pots that take as much as the best surface watering save nothing beside it, and more beside a worse one", () => {
  const { least, most } = savedBeside(1500, { least: 1500, most: 2400 });
  expect(least).toBe(0);
  expectClose(most, 0.375, { tolerance: 1e-12, unit: "", what: "saved at most" });
});

it("drip is counted where pots leave plants a tenth of their thirst, and not below", () => {
  expect(dripHelp(plan, days(0.3), { pots: 3, shortDays: 0 }).potDays).toBe(0);
  const help = dripHelp(plan, days(1), { pots: 3, shortDays: 7 });
  expect(help.potDays).toBe(100);
  expect(help.tankDays).toBe(7);
  expectClose(help.forPots.least, 300 / 0.95, { tolerance: 1e-9, unit: "L", what: "drip at least" });
});

// Brouwer, Prins & Heibloem (1989), FAO Training Manual 4, Annex I, from memory, against Howell (2003), from memory.
it.each([
  ["surface irrigation", "watering the surface"],
  ["drip irrigation", "drip"],
])("the single value of one source for %s lies in the range of the other", (single, range) => {
  const [value, row] = [rowNamed(otherWatering(), single), rowNamed(otherWatering(), range)];
  if (!("usualEfficiency" in value && "efficiency" in row)) throw new Error("other columns than expected");
  expect(value.usualEfficiency).toBeGreaterThanOrEqual(row.efficiency.min);
  expect(value.usualEfficiency).toBeLessThanOrEqual(row.efficiency.max);
});
