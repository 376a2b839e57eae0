import { MONTHS, type Month, middleDay } from "../plants/months.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";
import { DAYS_OF_YEAR } from "./day.ts";

/** Means of the days' highs and lows, °C; rain and days with rain of the whole month. */
export interface MonthWeather {
  high: number;
  low: number;
  rainMm: number;
  rainDays: number;
  /** null where humidity, wind and sunshine are not all known. */
  air: Air | null;
}

export type MonthMeans = Record<Month, MonthWeather>;

/** What a day of the year may expect: its temperatures, °C, and its air. */
export interface DayMeans {
  high: number;
  low: number;
  air: Air | null;
}

/**
 * A day's means, by straight lines between the fifteenths of the months, where each month's own mean stands; December and
 * January are neighbours. The mean over a month's days then differs from the month's own by an eighth of how far it
 * stands out from the line between its neighbours: half a degree in a July four degrees above both.
 */
export function meansOnDay(months: MonthMeans, dayOfYear: number): DayMeans {
  const { from, to, share } = between(dayOfYear);
  const [a, b] = [months[from], months[to]];
  const mix = (x: number, y: number) => x + share * (y - x);
  return { high: mix(a.high, b.high), low: mix(a.low, b.low), air: mixedAir(a.air, b.air, mix) };
}

function mixedAir(a: Air | null, b: Air | null, mix: (x: number, y: number) => number): Air | null {
  if (a === null || b === null) return null;
  return {
    humidity: mix(a.humidity, b.humidity),
    wind: mix(a.wind, b.wind),
    sunHours: mix(a.sunHours, b.sunHours),
  };
}

/** The two months whose fifteenths a day lies between, and how far it is from the first to the second, 0 to 1. */
function between(dayOfYear: number): { from: Month; to: Month; share: number } {
  const past = MONTHS.filter((month) => middleDay(month) <= dayOfYear);
  const from = past.at(-1) ?? "december";
  const to = MONTHS[past.length % MONTHS.length]!;
  const since = (day: number) => (day - middleDay(from) + DAYS_OF_YEAR) % DAYS_OF_YEAR;
  return { from, to, share: since(dayOfYear) / since(middleDay(to)) };
}
