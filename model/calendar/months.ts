export const MONTHS = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
] as const;

export type Month = (typeof MONTHS)[number];

/** Day of the year of a month's fifteenth, which stands for the whole month, in a year without a leap day. */
export function middleDay(month: Month): number {
  const year = 2001;
  return (Date.UTC(year, MONTHS.indexOf(month), 15) - Date.UTC(year - 1, 11, 31)) / 86_400_000;
}
