import { sum } from "d3-array";
import { byMonth } from "../calendar/months.ts";
import { daysOf } from "../calendar/yearDays.ts";
import { entry } from "../input/lists.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";
import type { DayWeather } from "./dayWeather.ts";
import type { MonthMeans, MonthWeather } from "./monthTable.ts";

/** A day with so much counts as one with rain, mm: common practice, no source. */
const RAIN_DAY_MM = 1;

/** The month table of whole years of 365 days, at least one; all their rain, and the days with 1 mm or more. */
export function monthMeans(years: readonly DayWeather[][]): MonthMeans {
  return byMonth((month) => {
    const days = daysOf(month);
    return monthWeather(
      years.flatMap((year) => days.map((day) => entry(year, day - 1))),
      years.length,
    );
  });
}

const meanOf = <T>(list: readonly T[], value: (each: T) => number): number => sum(list, value) / list.length;

function monthWeather(days: DayWeather[], years: number): MonthWeather {
  return {
    high: meanOf(days, ({ highC }) => highC),
    low: meanOf(days, ({ lowC }) => lowC),
    rainMm: sum(days, ({ rainMm }) => rainMm) / years,
    rainDays: rainDays(days) / years,
    air: meanAir(days),
  };
}

/** Where there is rain but never 1 mm a day, days with any rain: else the month's rain had no day to fall on. */
function rainDays(days: DayWeather[]): number {
  const wet = days.filter(({ rainMm }) => rainMm >= RAIN_DAY_MM);
  return wet.length > 0 ? wet.length : days.filter(({ rainMm }) => rainMm > 0).length;
}

/** Of the days that have it; null where none has. */
function meanAir(days: DayWeather[]): Air | null {
  const known = days.map(({ air }) => air).filter((air) => air !== null);
  if (known.length === 0) return null;
  return {
    humidity: meanOf(known, ({ humidity }) => humidity),
    wind: meanOf(known, ({ wind }) => wind),
    sunHours: meanOf(known, ({ sunHours }) => sunHours),
  };
}
