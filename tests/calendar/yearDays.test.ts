import { range, rollup } from "d3-array";
import { expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import {
  DAYS_OF_YEAR,
  dayOfMonth,
  dayOfYear,
  daysOfMonth,
  daysUntil,
  laterDay,
  middleDay,
  monthOfDay,
} from "../../model/calendar/yearDays.ts";

it("months have their days, 365 together without a leap day", () => {
  expect(MONTHS.map(daysOfMonth)).toEqual([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]);
});

it("every day of the year lies in its month, the fifteenths too", () => {
  const counts = rollup(
    range(1, DAYS_OF_YEAR + 1),
    (days) => days.length,
    (day) => monthOfDay(day),
  );
  expect([...counts]).toEqual(MONTHS.map((month) => [month, daysOfMonth(month)]));
  expect(MONTHS.map((month) => monthOfDay(middleDay(month)))).toEqual([...MONTHS]);
  expect([59, 60, 365].map(monthOfDay)).toEqual(["february", "march", "december"]);
});

it("a day of the year is that of its month and of its day there", () => {
  for (const day of range(1, DAYS_OF_YEAR + 1)) expect(dayOfYear(monthOfDay(day), dayOfMonth(day))).toBe(day);
});

it("days go on over the new year", () => {
  expect([laterDay(1, 0), laterDay(364, 1), laterDay(365, 1), laterDay(300, 365)]).toEqual([1, 365, 1, 300]);
  expect([daysUntil(105, 105), daysUntil(105, 106), daysUntil(106, 105), daysUntil(365, 1)]).toEqual([0, 1, 364, 1]);
});
