/** Dates, written YYYY-MM-DD. */

export const MS_PER_DAY = 86_400_000;

/** Days since 1 January 1970. */
export const dayNumber = (date: string): number => Date.parse(date) / MS_PER_DAY;

/** The inverse of `dayNumber`. */
export const dateOf = (dayNumber: number): string => new Date(dayNumber * MS_PER_DAY).toISOString().slice(0, 10);

export const isLeapDay = (date: string): boolean => date.endsWith("-02-29");

/** How many days a month of some year has, "2024-02". */
export const daysIn = (yearAndMonth: string): number =>
  new Date(Date.UTC(Number(yearAndMonth.slice(0, 4)), Number(yearAndMonth.slice(5)), 0)).getUTCDate();
