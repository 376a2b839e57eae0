import { bisectLeft, bisectRight, pairs, sum } from "d3-array";
import type { Run } from "../../flow/run.ts";
import { first, last, pairAt } from "../../input/lists.ts";

/** Values against time, as a run's history has them; at a refill one day stands twice. */
export interface Series {
  day: readonly number[];
  value: readonly number[];
}

/** A value of the run's history on a day, before a refill on it; in proportion between two steps; the last one after the end. */
export function onDay({ history }: Run, values: readonly number[], day: number): number {
  return seriesOn({ day: history.day, value: values }, day);
}

/** A value of a series on a day: `onDay` without a run. */
export function seriesOn({ day: days, value }: Series, day: number): number {
  if (days.length === 1) return first(value);
  const after = Math.min(Math.max(bisectLeft(days, day), 1), days.length - 1);
  const [from, to] = pairAt(days, after);
  const [before, then] = pairAt(value, after);
  const share = Math.min(Math.max((day - from) / (to - from), 0), 1);
  // Exact at both ends: else rounding could let a longer span vary less than one within it.
  return (1 - share) * before + share * then;
}

/** Least and greatest value between two days: between two steps the value runs straight, so the ends and steps decide. */
export function rangeBetween(series: Series, from: number, to: number): { least: number; greatest: number } {
  const { day, value } = series;
  const within = value.slice(bisectRight(day, from), bisectLeft(day, to));
  const all = [seriesOn(series, from), ...within, seriesOn(series, to)];
  return { least: Math.min(...all), greatest: Math.max(...all) };
}

/**
 * Whether an edge's radius, cm, read off the run's history, has come to the region's side: how far it goes is not
 * known.
 */
export function isAtSide({ grid }: Run, radius: number): boolean {
  return radius >= (grid.sectors?.reach ?? last(grid.rEdges)) - 1e-6;
}

/** First day on which the value is at least `limit`, in the values' own unit; null when it never is. */
export function firstDayAtLeast({ day, value }: Series, limit: number): number | null {
  const k = value.findIndex((v) => v >= limit);
  if (k < 0) return null;
  if (k === 0) return first(day);
  const [low, high] = pairAt(value, k);
  const [from, to] = pairAt(day, k);
  return from + ((limit - low) / (high - low)) * (to - from);
}

/** First day from which the value stays at least `limit` to the end; null when it ends below. */
export function lastingFrom({ day, value }: Series, limit: number): number | null {
  const k = value.findLastIndex((v) => v < limit);
  if (k === value.length - 1) return null;
  return firstDayAtLeast({ day: day.slice(Math.max(k, 0)), value: value.slice(Math.max(k, 0)) }, limit);
}

/** Days in all on which the value is at least `limit`. */
export function daysAtLeast({ day, value }: Series, limit: number): number {
  return sum(pairs(value), ([from, to], k) => {
    const [start, end] = pairAt(day, k + 1);
    return (end - start) * shareAtLeast(from, to, limit);
  });
}

function shareAtLeast(from: number, to: number, limit: number): number {
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  if (low >= limit) return 1;
  return high < limit ? 0 : (high - limit) / (high - low);
}
