import { MONTHS, type Month } from "../calendar/months.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";

/** What a day brings. A year is 365 of them from 1 January: 29 February is left out. */
export interface DayWeather {
  highC: number;
  lowC: number;
  rainMm: number;
  /** null where humidity, wind and sunshine are not all known. */
  air: Air | null;
}

export const DAYS_OF_YEAR = 365;

/** A year without a leap day stands for every year. */
const YEAR = 2001;
const MS_PER_DAY = 86_400_000;

/** How many days a month has, in a year without a leap day. */
export function daysOfMonth(month: Month): number {
  const index = MONTHS.indexOf(month);
  return (Date.UTC(YEAR, index + 1, 1) - Date.UTC(YEAR, index, 1)) / MS_PER_DAY;
}

/** The month of a day of the year, 1 to 365. */
export function monthOfDay(dayOfYear: number): Month {
  return MONTHS[new Date(Date.UTC(YEAR, 0, dayOfYear)).getUTCMonth()]!;
}
