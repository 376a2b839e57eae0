import { mean, range } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { DAYS_OF_YEAR, middleDay, monthOfDay } from "../../model/calendar/yearDays.ts";
import { dayMeans } from "../../model/weather/monthTable.ts";
import { anyMonths, evenMonths, monthsOf } from "../support/weather.ts";

describe("the days' mean temperatures", () => {
  it("have each month's own mean as their mean over the month", () => {
    fc.assert(
      fc.property(anyMonths, (months) => {
        const lows = dayMeans(months).map(({ low }) => low);
        for (const month of MONTHS) {
          const own = mean(lows.filter((_, i) => monthOfDay(i + 1) === month));
          expect(own).toBeCloseTo(months[month].low, 9);
        }
      }),
    );
  });

  it("change evenly from one fifteenth to the next, the turn of the year too", () => {
    const months = monthsOf((month) => ({ ...evenMonths().july, high: MONTHS.indexOf(month) % 5, low: -5 }));
    const highs = dayMeans(months).map(({ high }) => high);
    const on = (day: number) => highs[(day - 1 + DAYS_OF_YEAR) % DAYS_OF_YEAR]!;
    const fifteenths = new Set(MONTHS.map(middleDay));
    for (const day of range(1, DAYS_OF_YEAR + 1)) {
      const bend = on(day + 1) - 2 * on(day) + on(day - 1);
      if (fifteenths.has(day)) expect(Math.abs(bend), `day ${day}`).toBeGreaterThan(1e-3);
      else expect(bend, `day ${day}`).toBeCloseTo(0, 9);
    }
  });

  it("are the same all year where the months are", () => {
    for (const { high, low } of dayMeans(evenMonths())) {
      expect(high).toBeCloseTo(22, 9);
      expect(low).toBeCloseTo(12, 9);
    }
  });

  it("never have a high below the low, however wildly the months differ", () => {
    fc.assert(fc.property(anyMonths, (months) => dayMeans(months).every(({ high, low }) => high >= low)));
  });
});
