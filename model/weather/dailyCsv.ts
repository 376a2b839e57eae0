import { sum } from "d3-array";
import { dsvFormat } from "d3-dsv";
import { type Checked, type Fault, fault } from "../input/faults.ts";
import type { UnitSystem } from "../units/units.ts";
import { type DatedDay, type RowReader, rowReader } from "./dayRow.ts";
import { HEADINGS_WORDS, headingFaults } from "./headings.ts";
import { type CalendarYear, orderFaults, spanFaults, wholeYears } from "./recordDates.ts";
import { unitFaults } from "./unitFaults.ts";

export interface WeatherRecord {
  /** In order, without a gap. */
  days: DatedDay[];
  /** At least one; the days before the first whole year and after the last are in `days` alone. */
  years: CalendarYear<DatedDay>[];
}

/**
 * A record of daily weather as a person types or pastes it: a line of headings (date, high, low, rain, and if known
 * humidity, wind and sun, in any order), then a line for each day. Dates read YYYY-MM-DD; temperatures and rain are in the
 * person's units (°C and mm, or °F and in), humidity in %, wind at 2 m in m/s or mph, sun in hours a day. Cells are parted
 * by commas, or by semicolons or tabs, where decimals may have a comma. Every fault is found, ten are told one by one.
 */
export function readDailyCsv(text: string, units: UnitSystem): Checked<WeatherRecord> {
  const separator = separatorOf(text);
  const [head, ...lines] = linesOf(text, separator);
  if (!head) return failed([fault("", "daily weather", undefined, `${HEADINGS_WORDS}, then a line for each day`)]);
  const headings = head.cells.map((cell) => cell.toLowerCase());
  const faults = headingFaults(headings, head.line);
  if (faults.length > 0) return failed(faults);
  const read = rowReader(units, separator === "," ? "." : ",");
  return readDays(
    lines.map((line) => readLine(line, headings, read)),
    units,
  );
}

export type RecordReader = typeof readDailyCsv;

/** Reads as `read` does, and gives back what the last text came to without parsing it again. */
export function recordReader(read: RecordReader = readDailyCsv): RecordReader {
  let last: { text: string; units: UnitSystem; record: Checked<WeatherRecord> } | undefined;
  return (text, units) => {
    if (last?.text !== text || last.units !== units) last = { text, units, record: read(text, units) };
    return last.record;
  };
}

interface Line {
  line: number;
  cells: string[];
}

/** Of the headings. */
function separatorOf(text: string): string {
  const [head = ""] = text.trimStart().split(/[\r\n]/, 1);
  return ["\t", ";"].find((sign) => head.includes(sign)) ?? ",";
}

/** Lines that are not blank, their cells trimmed. A cell in quotes may itself go over several lines. */
function linesOf(text: string, separator: string): Line[] {
  let next = 1;
  const rows = dsvFormat(separator).parseRows(text.replace(/^\uFEFF/, ""));
  const lines = rows.map((cells) => {
    const line = next;
    next += 1 + sum(cells, (cell) => cell.match(/\r\n|\r|\n/g)?.length ?? 0);
    return { line, cells: cells.map((cell) => shortened(cell.trim())) };
  });
  return lines.filter(({ cells }) => cells.some((cell) => cell !== ""));
}

/** No value is as long as what a forgotten closing quote makes of a text, and no message should be. */
const LONGEST_CELL = 80;
const shortened = (cell: string) => (cell.length > LONGEST_CELL ? `${cell.slice(0, LONGEST_CELL)}…` : cell);

interface ReadLine {
  line: number;
  /** null where it cannot be read. */
  date: string | null;
  /** null where a value is wrong. */
  day: DatedDay | null;
  faults: Fault[];
}

function readLine({ line, cells }: Line, headings: string[], read: RowReader): ReadLine {
  const stray = cells.filter((cell, i) => cell !== "" && !headings[i]).map(strayFault);
  const known = headings.flatMap((heading, i) => (heading ? [[heading, cells[i] ?? ""] as const] : []));
  const byHeading: Readonly<Record<string, string>> = Object.fromEntries(known);
  const row = read(byHeading);
  const faults = [...stray, ...(row.ok ? [] : row.faults)];
  const isDated = !faults.some(({ field }) => field === "date");
  return {
    line,
    date: isDated ? (byHeading.date ?? null) : null,
    day: row.ok ? row.value : null,
    faults: faults.map((one) => ({ ...one, path: "", message: `line ${line}: ${one.message}` })),
  };
}

function strayFault(cell: string): Fault {
  const allowed = "as many values as there are headings, decimals with a point";
  return {
    path: "",
    field: "value",
    value: cell,
    allowed,
    message: `"${cell}" has no heading; there must be ${allowed}`,
  };
}

function readDays(lines: ReadLine[], units: UnitSystem): Checked<WeatherRecord> {
  const dates = lines.map(({ date }) => date).filter((date) => date !== null);
  const days = lines.map(({ day }) => day).filter((day) => day !== null);
  const faults = [...spanFaults(dates), ...orderFaults(lines), ...lines.flatMap((line) => line.faults)];
  // A year that lacks its faulty days may seem too cold.
  if (faults.length === 0) faults.push(...unitFaults(days, units));
  return faults.length > 0 ? failed(faults) : { ok: true, value: { days, years: wholeYears(days) } };
}

/** Faults that are told one by one. */
const TOLD = 10;

function failed(faults: Fault[]): Checked<never> {
  const more = faults.length - TOLD;
  if (more <= 0) return { ok: false, faults };
  const message = `${more} more ${more === 1 ? "fault is" : "faults are"} not told one by one`;
  return {
    ok: false,
    faults: [...faults.slice(0, TOLD), { path: "", field: "daily weather", value: more, allowed: "", message }],
  };
}
