import { range, rollup } from "d3-array";
import { expect, it } from "vitest";
import { MONTHS, middleDay } from "../../model/calendar/months.ts";
import { DAYS_OF_YEAR, daysOfMonth, monthOfDay } from "../../model/weather/day.ts";

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
