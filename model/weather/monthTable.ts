import { range } from "d3-array";
import { Matrix, solve } from "ml-matrix";
import { MONTHS, type Month } from "../calendar/months.ts";
import { DAYS_OF_YEAR, daysOfMonth, daysUntil, middleDay, monthOfDay } from "../calendar/yearDays.ts";
import { entry } from "../input/lists.ts";
import type { Air } from "../plants/referenceEvapotranspiration.ts";

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

/** What a day of the year may expect, °C, never a high below the low. */
export interface DayMeans {
  high: number;
  low: number;
}

/**
 * The 365 days' means by straight lines between the fifteenths of the months, December's and January's too, whose means
 * over each month are the table's. So the lines pass a little beyond the means of the warmest month and the coldest:
 * through the means themselves, a July 4 °C above its neighbours would come out 1 °C too cool.
 */
export function dayMeans(months: MonthMeans): DayMeans[] {
  const weights = range(1, DAYS_OF_YEAR + 1).map(weightsOnDay);
  const [high, low] = [lines(months, "high", weights), lines(months, "low", weights)];
  return low.map((lowest, i) => ({ high: Math.max(entry(high, i), lowest), low: lowest }));
}

/** Each day's value on the lines. */
function lines(months: MonthMeans, what: "high" | "low", weights: number[][]): number[] {
  const means = Matrix.columnVector(MONTHS.map((month) => months[month][what]));
  const fifteenths = solve(monthWeights(weights), means);
  return new Matrix(weights).mmul(fifteenths).to1DArray();
}

/** How much of each fifteenth (columns) is in each month's mean (rows). */
function monthWeights(weights: number[][]): Matrix {
  const sums = Matrix.zeros(MONTHS.length, MONTHS.length);
  weights.forEach((row, i) => {
    const month = monthOfDay(i + 1);
    const index = MONTHS.indexOf(month);
    row.forEach((weight, column) => {
      sums.set(index, column, sums.get(index, column) + weight / daysOfMonth(month));
    });
  });
  return sums;
}

/** How much of each month's fifteenth is in a day's value: of the two that it lies between. */
function weightsOnDay(dayOfYear: number): number[] {
  const after = MONTHS.filter((month) => middleDay(month) <= dayOfYear).length % MONTHS.length;
  const before = (after + MONTHS.length - 1) % MONTHS.length;
  const since = (day: number) => daysUntil(middleDay(entry(MONTHS, before)), day);
  const share = since(dayOfYear) / since(middleDay(entry(MONTHS, after)));
  return MONTHS.map((_, month) => (month === before ? 1 - share : month === after ? share : 0));
}
