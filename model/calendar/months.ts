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

export const byMonth = <T>(make: (month: Month) => T): Record<Month, T> =>
  Object.fromEntries(MONTHS.map((month) => [month, make(month)])) as Record<Month, T>;
