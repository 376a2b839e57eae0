import fc from "fast-check";
import { MONTHS, type Month } from "../../model/calendar/months.ts";
import { daysOfMonth } from "../../model/calendar/yearDays.ts";
import type { MonthMeans, MonthWeather } from "../../model/weather/monthTable.ts";

/** A month table made of what each month is like. */
export function monthsOf(make: (month: Month) => MonthWeather): MonthMeans {
  return Object.fromEntries(MONTHS.map((month) => [month, make(month)])) as MonthMeans;
}

/** Twelve months alike, all invented. */
export function evenMonths(changes: Partial<MonthWeather> = {}): MonthMeans {
  return monthsOf(() => ({ high: 22, low: 12, rainMm: 60, rainDays: 10, air: null, ...changes }));
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyMonth = (month: Month): fc.Arbitrary<MonthWeather> =>
  fc
    .record({
      low: between(-5, 20),
      range: between(0, 20),
      rainDays: fc.integer({ min: 0, max: daysOfMonth(month) }),
      wetMm: between(0.2, 30),
    })
    .map(({ low, range, rainDays, wetMm }) => ({
      high: low + range,
      low,
      rainMm: rainDays * wetMm,
      rainDays,
      air: null,
    }));

/** Twelve months that need not follow from each other: a flood after a drought. */
export const anyMonths: fc.Arbitrary<MonthMeans> = fc
  .tuple(...MONTHS.map(anyMonth))
  .map((list) => monthsOf((month) => list[MONTHS.indexOf(month)]!));
