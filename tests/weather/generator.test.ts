import cephes from "cephes";
import { deviation, group, mean, range, sum, variance } from "d3-array";
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { MONTHS, type Month } from "../../model/calendar/months.ts";
import { daysOfMonth, monthOfDay } from "../../model/calendar/yearDays.ts";
import type { DayWeather } from "../../model/weather/dayWeather.ts";
import { weatherYears } from "../../model/weather/generator.ts";
import type { MonthMeans } from "../../model/weather/monthTable.ts";
import { exampleWeather } from "../../reference-data/load.ts";
import { expectClose } from "../support/close.ts";
import { anyMonths, evenMonths, monthsOf } from "../support/weather.ts";

const YEARS = 2000;

/** The invented dry-summer climate of the examples. */
const example: MonthMeans = monthsOf((month) => {
  const { highC, lowC, rainMm, rainDays } = exampleWeather().rows.find(({ name }) => name === month)!;
  return { high: highC, low: lowC, rainMm, rainDays, air: null };
});

const DAYS_BY_MONTH = group(range(365), (i) => monthOfDay(i + 1));
/** A year's days of a month. */
const daysIn = (month: Month, days: DayWeather[]) => DAYS_BY_MONTH.get(month)!.map((i) => days[i]!);
const isWet = ({ rainMm }: DayWeather) => rainMm > 0;

/** Standard errors that a mean may be off: one in two million is farther off by chance. */
const ERRORS = 5;

/** Holds the mean of many years' values against the known one, by the spread of the years themselves. */
function expectMean(values: number[], known: number, unit: string, what: string) {
  const error = (deviation(values) ?? 0) / Math.sqrt(values.length);
  expectClose(mean(values)!, known, { tolerance: ERRORS * error + 1e-9, unit, what });
}

describe("weather years by chance", () => {
  it("have the rain, wet days, highs and lows of each month in the long run", () => {
    const years = weatherYears(example, { years: YEARS, seed: 1 });
    for (const month of MONTHS) {
      const own = years.map((days) => daysIn(month, days));
      const { rainMm, rainDays, high, low } = example[month];
      expectMean(
        own.map((days) => sum(days, (day) => day.rainMm)),
        rainMm,
        "mm",
        `rain of ${month}`,
      );
      expectMean(
        own.map((days) => days.filter(isWet).length),
        rainDays,
        "days",
        `wet days of ${month}`,
      );
      expectMean(
        own.map((days) => mean(days, (day) => day.highC)!),
        high,
        "C",
        `highs of ${month}`,
      );
      expectMean(
        own.map((days) => mean(days, (day) => day.lowC)!),
        low,
        "C",
        `lows of ${month}`,
      );
    }
  });

  it("keep the wet days of every month where a flood follows a drought, from its first day", () => {
    // From 10 days to 1 and on to 29, the usual chances would be below 0 and above 1.
    const shares: Partial<Record<Month, number>> = { march: 1, april: 29, may: 1, august: 0, september: 15 };
    const months = monthsOf((month) => ({ ...evenMonths().july, rainDays: shares[month] ?? 10 }));
    const years = weatherYears(months, { years: YEARS, seed: 2 });
    for (const month of MONTHS) {
      const [first, all] = [1, daysOfMonth(month)].map((count) =>
        years.map((days) => daysIn(month, days).slice(0, count).filter(isWet).length),
      );
      expectMean(first!, months[month].rainDays / daysOfMonth(month), "", `chance of rain on the first of ${month}`);
      expectMean(all!, months[month].rainDays, "days", `wet days of ${month}`);
    }
  });

  it("have wet days in a row: a day is wet by 0.25 likelier after a wet one than after a dry one", () => {
    const julys = weatherYears(evenMonths({ rainDays: 10 }), { years: YEARS, seed: 3 }).map((days) =>
      daysIn("july", days),
    );
    const after = (wet: boolean) =>
      julys
        .flatMap((july) => july.slice(1).filter((_, i) => isWet(july[i]!) === wet))
        .map((day) => (isWet(day) ? 1 : 0));
    // 0.75 · 10/31, and 0.25 more.
    expectMean(after(false), 0.75 * (10 / 31), "", "chance after a dry day");
    expectMean(after(true), 0.25 + 0.75 * (10 / 31), "", "chance after a wet day");
  });

  describe("have rain that is spread by the gamma distribution", () => {
    beforeAll(() => cephes.compiled);

    const amounts = (wetMm: number, seed: number) =>
      weatherYears(evenMonths({ rainDays: 10, rainMm: 10 * wetMm }), { years: 1000, seed })
        .flat()
        .filter(isWet)
        .map(({ rainMm }) => rainMm);

    // Scale 1.83 · mean − 2.16, mm; shape = mean/scale.
    it.each([
      { wetMm: 10, scale: 16.14 },
      { wetMm: 5, scale: 6.99 },
      { wetMm: 30, scale: 52.74 },
    ])("of Geng's shape: $wetMm mm a wet day", ({ wetMm, scale }) => {
      const rains = amounts(wetMm, 4);
      for (const limit of [0.1, 0.5, 1, 3].map((times) => times * wetMm)) {
        const above = rains.map((mm) => (mm > limit ? 1 : 0));
        expectMean(above, cephes.igamc(wetMm / scale, limit / scale), "", `share above ${limit} mm`);
      }
    });

    it("of shape 1 where wet days bring little: a mean of 1 mm is passed by 1/e of them", () => {
      const rains = amounts(1, 5);
      expectMean(
        rains.map((mm) => (mm > 1 ? 1 : 0)),
        Math.exp(-1),
        "",
        "share above the mean",
      );
    });
  });

  it("have temperatures that stray by 3 °C and keep 0.65 of it to the next day, and a smaller range under rain", () => {
    const years = weatherYears(evenMonths({ rainDays: 10 }), { years: YEARS, seed: 6 });
    const stray = ({ lowC }: DayWeather) => lowC - 12;
    // Pairs of days so far apart that they know nothing of each other: 0.65 to the power of 20 is 2e-4.
    const pairs = years.flatMap((days) =>
      range(0, 360, 20).map((i) => [stray(days[i]!), stray(days[i + 1]!)] as const),
    );
    expectMean(
      pairs.map(([today]) => today ** 2),
      9,
      "C2",
      "variance",
    );
    expectMean(
      pairs.map(([today, next]) => today * next),
      0.65 * 9,
      "C2",
      "covariance with the next day",
    );
    // A range of 10 °C: 2.5 °C less on wet days than on dry ones, of which 10/31 are.
    for (const { highC, lowC, rainMm } of daysIn("july", years[0]!))
      expect(highC - lowC).toBeCloseTo(rainMm > 0 ? 10 - 2.5 * (21 / 31) : 10 + 2.5 * (10 / 31), 9);
  });

  it("of a seed are the same whatever their number, and others for another seed", () => {
    const [few, many] = [3, 20].map((years) => weatherYears(example, { years, seed: 7 }));
    expect(many!.slice(0, 3)).toEqual(few);
    expect(new Set(many!.map(([first]) => first!.lowC)).size).toBe(20);
    expect(weatherYears(example, { years: 3, seed: 8 })).not.toEqual(few);
  });

  it("keep their temperatures and their wet days where only the amount of rain is another", () => {
    const [some, more] = [60, 90].map((rainMm) => weatherYears(evenMonths({ rainMm }), { years: 5, seed: 9 }).flat());
    expect(more!.map(({ highC, lowC }) => [highC, lowC])).toEqual(some!.map(({ highC, lowC }) => [highC, lowC]));
    expect(more!.map(isWet)).toEqual(some!.map(isWet));
  });

  it("have each month's own humidity, wind and sunshine", () => {
    const air = { humidity: 40, wind: 3, sunHours: 11 };
    const months = { ...evenMonths({ air: { humidity: 80, wind: 2, sunHours: 4 } }) };
    months.july = { ...months.july, air };
    const [year] = weatherYears(months, { years: 1, seed: 10 });
    expect(daysIn("july", year!).every((day) => day.air === air)).toBe(true);
    expect(daysIn("june", year!)[29]!.air).toEqual({ humidity: 80, wind: 2, sunHours: 4 });
  });

  it("have 365 days of finite numbers, no high below the low, no rain below 0, none in a month without, for any table", () => {
    fc.assert(
      fc.property(anyMonths, fc.nat(), (months, seed) => {
        const years = weatherYears(months, { years: 2, seed });
        for (const days of years) expect(days.length).toBe(365);
        for (const [i, { highC, lowC, rainMm }] of years.flat().entries()) {
          const month = monthOfDay((i % 365) + 1);
          const { rainDays } = months[month];
          expect([highC, lowC, rainMm].every(Number.isFinite)).toBe(true);
          expect(highC >= lowC && rainMm >= 0).toBe(true);
          if (rainDays === 0) expect(rainMm).toBe(0);
          if (rainDays === daysOfMonth(month)) expect(rainMm).toBeGreaterThan(0);
        }
      }),
      { numRuns: 50 },
    );
  });

  it("of neighbouring seeds have nothing to do with each other", () => {
    const lows = range(200).map((seed) => weatherYears(evenMonths(), { years: 1, seed })[0]![0]!.lowC);
    const products = lows.slice(1).map((low, i) => (low - 12) * (lows[i]! - 12));
    expectMean(products, 0, "C2", "covariance of seeds");
    expectClose(variance(lows)!, 9, { tolerance: ERRORS * 9 * Math.sqrt(2 / 200), unit: "C2", what: "variance" });
  });
});
