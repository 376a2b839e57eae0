import { bisectLeft } from "d3-array";
import type { Run } from "../flow/run.ts";

/** Values against time, as a run's history has them; at a refill one day stands twice. */
export interface Series {
  day: readonly number[];
  value: readonly number[];
}

/** A value of the run's history on a day, before a refill on it; in proportion between two steps; the last one after the end. */
export function onDay({ history }: Run, values: readonly number[], day: number): number {
  return seriesOn({ day: history.day, value: values }, day);
}

export function seriesOn({ day: days, value }: Series, day: number): number {
  if (days.length === 1) return value[0]!;
  const after = Math.min(Math.max(bisectLeft(days, day), 1), days.length - 1);
  const [from, to] = [days[after - 1]!, days[after]!];
  const share = Math.min(Math.max((day - from) / (to - from || 1), 0), 1);
  return value[after - 1]! + share * (value[after]! - value[after - 1]!);
}

/** Least and greatest value between two days: between two steps the value runs straight, so the ends and steps decide. */
export function rangeBetween(series: Series, from: number, to: number): { least: number; greatest: number } {
  const { day, value } = series;
  const within = value.filter((_, k) => day[k]! > from && day[k]! < to);
  const all = [seriesOn(series, from), ...within, seriesOn(series, to)];
  return { least: Math.min(...all), greatest: Math.max(...all) };
}

/** First day from which the value is at least `limit`; null when it never is. */
export function firstDayAtLeast({ day, value }: Series, limit: number): number | null {
  const k = value.findIndex((v) => v >= limit);
  if (k < 0) return null;
  if (k === 0) return day[0]!;
  const share = (limit - value[k - 1]!) / (value[k]! - value[k - 1]!);
  return day[k - 1]! + share * (day[k]! - day[k - 1]!);
}
