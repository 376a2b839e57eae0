import { range } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { daysOfMonth, monthOfDay } from "../../model/calendar/yearDays.ts";
import type { DayWeather } from "../../model/weather/dayWeather.ts";
import { weatherYears } from "../../model/weather/generator.ts";
import { monthMeans } from "../../model/weather/monthMeans.ts";
import { anyMonths } from "../support/weather.ts";

const even: DayWeather = { highC: 20, lowC: 10, rainMm: 0, air: null };
const yearOf = (make: (dayOfYear: number) => Partial<DayWeather>): DayWeather[] =>
  range(1, 366).map((day) => ({ ...even, ...make(day) }));

describe("the month table of years", () => {
  it("has each month's mean temperatures, and rain and days with rain of a year on average", () => {
    // Rain of 6 mm on every day of June in one year of two; July one degree warmer in the other.
    const wet = yearOf((day) => (monthOfDay(day) === "june" ? { rainMm: 6 } : {}));
    const warm = yearOf((day) => (monthOfDay(day) === "july" ? { highC: 21, lowC: 12 } : {}));
    const { june, july, may } = monthMeans([wet, warm]);
    expect(june).toEqual({ high: 20, low: 10, rainMm: 90, rainDays: 15, air: null });
    expect(july).toEqual({ high: 20.5, low: 11, rainMm: 0, rainDays: 0, air: null });
    expect(may).toEqual({ high: 20, low: 10, rainMm: 0, rainDays: 0, air: null });
  });

  it("counts days with 1 mm or more, but loses no rain; days with any rain in a month of less", () => {
    const amounts = [0.25, 1, 5, 0.75];
    const drizzle = yearOf((day) => ({ rainMm: amounts[day - 1] ?? (monthOfDay(day) === "may" ? 0.5 : 0) }));
    const { january, may } = monthMeans([drizzle]);
    expect([january.rainMm, january.rainDays]).toEqual([7, 2]);
    expect([may.rainMm, may.rainDays]).toEqual([15.5, 31]);
  });

  it("has the mean air of the days that tell it, and none where no day does", () => {
    const air = { humidity: 50, wind: 2, sunHours: 8 };
    const known = yearOf((day) => (day === 1 ? { air } : day === 2 ? { air: { ...air, humidity: 70 } } : {}));
    const { january, february } = monthMeans([known]);
    expect(january.air).toEqual({ humidity: 60, wind: 2, sunHours: 8 });
    expect(february.air).toBeNull();
  });

  it("has all the rain of any years, and no more wet days than days", () => {
    fc.assert(
      fc.property(anyMonths, fc.nat(), fc.integer({ min: 1, max: 4 }), (months, seed, years) => {
        const record = weatherYears(months, { years, seed });
        const table = monthMeans(record);
        const fallen = record.flat().reduce((sum, { rainMm }) => sum + rainMm, 0);
        const told = MONTHS.reduce((sum, month) => sum + years * table[month].rainMm, 0);
        expect(told).toBeCloseTo(fallen, 6);
        for (const month of MONTHS) {
          const { high, low, rainMm, rainDays } = table[month];
          expect(rainDays).toBeLessThanOrEqual(daysOfMonth(month));
          expect(rainDays > 0).toBe(rainMm > 0);
          expect(high).toBeGreaterThanOrEqual(low);
        }
      }),
      { numRuns: 30 },
    );
  });
});
