import { group, max, min, range } from "d3-array";
import { dateOf, dayNumber, daysIn, isLeapDay } from "../calendar/dates.ts";
import { MONTHS } from "../calendar/months.ts";
import { DAYS_OF_YEAR } from "../calendar/yearDays.ts";
import type { Fault } from "../input/faults.ts";

/** A line of a record, and the day that it tells of, YYYY-MM-DD; null where its date cannot be read. */
export interface DatedLine {
  line: number;
  date: string | null;
}

/** Where days are missing, stand twice or do not follow each other; a missing 29 February is nothing to mend. */
export function orderFaults(lines: readonly DatedLine[]): Fault[] {
  const all = new Set(lines.map(({ date }) => date));
  const first = new Map<string, number>();
  let latest: KnownDate | null = null;
  let isNext = true;
  return lines.flatMap(({ line, date }) => {
    const [before, follows] = [latest, isNext];
    // The day that a date cannot be read of may be the one that seems to be missing.
    isNext = date !== null;
    if (date === null) return [];
    const known = first.get(date);
    if (known !== undefined) return [dateFault(line, date, `stands on line ${known} already`)];
    first.set(date, line);
    if (before && date < before.date)
      return [dateFault(line, date, `comes after ${before.date} on line ${before.line}`)];
    latest = { line, date };
    return before && follows ? gapFaults(before, latest, all) : [];
  });
}

interface KnownDate {
  line: number;
  date: string;
}

/** Days between two lines that stand nowhere else either. */
function gapFaults(before: KnownDate, after: KnownDate, all: Set<string | null>): Fault[] {
  const between = range(dayNumber(before.date) + 1, dayNumber(after.date)).map(dateOf);
  const missing = between.filter((date) => !all.has(date));
  return missing.every(isLeapDay) ? [] : [gapFault(before, after, missing)];
}

const ORDER = "one day a line, oldest first, none left out";

function dateFault(line: number, date: string, trouble: string): Fault {
  const message = `line ${line}: date ${date} ${trouble}; there must be ${ORDER}`;
  return { path: "", field: "date", value: date, allowed: ORDER, message };
}

function gapFault(before: KnownDate, { line, date }: KnownDate, missing: string[]): Fault {
  const days = missing.length === 1 ? `${missing[0]} is` : `${missing.length} days are`;
  const span = missing.length === 1 ? "" : `, from ${missing[0]} to ${missing.at(-1)}`;
  const months = wholeMonths(missing);
  const whole = months.length > 0 ? ` (no day of ${months.join(", ")})` : "";
  const place = `between line ${before.line} (${before.date}) and line ${line} (${date})`;
  const message = `${place} ${days} missing${span}${whole}; there must be ${ORDER}`;
  return { path: "", field: "date", value: missing[0], allowed: ORDER, message };
}

/** "June 2024" where all the month's days are missing. */
function wholeMonths(missing: string[]): string[] {
  const byMonth = group(missing, (date) => date.slice(0, 7));
  return [...byMonth].filter(([month, dates]) => dates.length === daysIn(month)).map(([month]) => monthAndYear(month));
}

const MONTH_AND_YEAR = new Intl.DateTimeFormat("en", { month: "long", year: "numeric", timeZone: "UTC" });
const monthAndYear = (month: string) => MONTH_AND_YEAR.format(Date.parse(`${month}-01`));

/** That the days from the first to the last hold no whole year from 1 January to 31 December. */
export function spanFaults(dates: readonly string[]): Fault[] {
  const [first, last] = [min(dates), max(dates)];
  if (first === undefined || last === undefined) return [spanFault("no line has a date that can be read")];
  const firstYear = Number(first.slice(0, 4)) + (first.endsWith("-01-01") ? 0 : 1);
  const lastYear = Number(last.slice(0, 4)) - (last.endsWith("-12-31") ? 0 : 1);
  if (firstYear <= lastYear) return [];
  const known = new Set(dates.map((date) => Number(date.slice(5, 7))));
  const absent = MONTHS.filter((_, i) => !known.has(i + 1)).map(
    (month) => month.charAt(0).toUpperCase() + month.slice(1),
  );
  const months = absent.length > 0 ? ` (no day of ${absent.join(", ")})` : "";
  return [spanFault(`the days go from ${first} to ${last}${months}`)];
}

const SPAN = "at least one whole year, from 1 January to 31 December";

function spanFault(trouble: string): Fault {
  return { path: "", field: "date", value: trouble, allowed: SPAN, message: `${trouble}; there must be ${SPAN}` };
}

export interface CalendarYear<Day> {
  year: number;
  /** 365 from 1 January, without 29 February. */
  days: Day[];
}

/** The whole calendar years among days in order, without gaps. */
export function wholeYears<Day extends { date: string }>(days: readonly Day[]): CalendarYear<Day>[] {
  const byYear = group(
    days.filter(({ date }) => !isLeapDay(date)),
    ({ date }) => Number(date.slice(0, 4)),
  );
  return [...byYear].map(([year, own]) => ({ year, days: own })).filter(({ days: own }) => own.length === DAYS_OF_YEAR);
}
