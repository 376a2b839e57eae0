/** Days of the year, 1 to 365: a year without a leap day stands for every year. */
import { range } from "d3-array";
import { entry } from "../input/lists.ts";
import { MS_PER_DAY } from "./dates.ts";
import { MONTHS, type Month } from "./months.ts";

export const DAYS_OF_YEAR = 365;

/** Months from 0 on; both may lie outside the year. */
const dateOf = (month: number, day: number) => new Date(Date.UTC(2001, month, day));

/** Day of the year, 1 to 365; 29 February counts as 1 March. */
export function dayOfYear(month: Month, day: number): number {
  return (dateOf(MONTHS.indexOf(month), day).getTime() - dateOf(0, 0).getTime()) / MS_PER_DAY;
}

/** A month's fifteenth, which stands for the whole month. */
export const middleDay = (month: Month): number => dayOfYear(month, 15);

/** Number of days of a month, 28 in February. */
export const daysOfMonth = (month: Month): number => dateOf(MONTHS.indexOf(month) + 1, 0).getUTCDate();

/** A month's days of the year. */
export const daysOf = (month: Month): number[] => range(dayOfYear(month, 1), dayOfYear(month, 1) + daysOfMonth(month));

/** The month's place in `MONTHS`. */
export const monthIndexOf = (dayOfYear: number): number => dateOf(0, dayOfYear).getUTCMonth();

/** Month of a day of the year, 1 to 365. */
export const monthOfDay = (dayOfYear: number): Month => entry(MONTHS, monthIndexOf(dayOfYear));

/** Day of the month, from 1, of a day of the year, 1 to 365. */
export const dayOfMonth = (dayOfYear: number): number => dateOf(0, dayOfYear).getUTCDate();

/** The day of the year some days later, in the next year where the year ends before. */
export const laterDay = (dayOfYear: number, days: number): number => ((dayOfYear - 1 + days) % DAYS_OF_YEAR) + 1;

/** From one day of the year to the next time that it is the other, 0 to 364. */
export const daysUntil = (from: number, to: number): number => (to - from + DAYS_OF_YEAR) % DAYS_OF_YEAR;
