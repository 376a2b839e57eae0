/** A comparison as tables for a terminal. */
import { type Row, summed, WORSE_BY, worse } from "./compare.ts";
import type { Pair, Times } from "./inTurns.ts";

export interface ComparedSection {
  name: string;
  heading: string;
  isLong: boolean;
  rows: Row[];
}

export function printCompared({ heading, isLong, rows }: ComparedSection): void {
  const columns = columnsFor(rows);
  const print = (cells: string[]) => console.log(cells.join(" ").trimEnd());
  console.log(`\n${heading}`);
  print(columns.map(({ head, width }) => aligned(head, width)));
  for (const row of [...(isLong ? rows.filter(isTold) : rows), ...summed(rows)])
    print(row.trouble ? [...labels(row), row.trouble] : columns.map(({ width, of }) => aligned(of(row), width)));
  if (rows.some(({ errors }) => errors)) for (const side of ["ours", "theirs"] as const) print([verdict(rows, side)]);
}

/** Of a long section, what is worth a line beside the sums. */
const isTold = (row: Row) => row.trouble !== undefined || worse(row, "ours").length > 0;

/** Below 0 for words, which begin at the left. */
const aligned = (text: string, width: number) => (width < 0 ? text.padEnd(-width) : text.padStart(width));

interface Column {
  head: string;
  width: number;
  of(row: Row): string;
}

const LABELS: Column[] = [
  { head: "run", width: -44, of: ({ name }) => name },
  { head: "setting", width: -8, of: ({ setting }) => setting },
  { head: "grid", width: -5, of: ({ grid }) => grid },
];

const labels = (row: Row) => LABELS.map(({ width, of }) => aligned(of(row), width));

function columnsFor(rows: readonly Row[]): Column[] {
  const has = (key: keyof Row) => rows.some((row) => row[key] !== undefined);
  const errors = rows.find((row) => row.errors)?.errors;
  return [
    ...LABELS,
    ...(has("times") ? timeColumns("ms", ({ times }) => times) : []),
    ...(has("processTimes") ? timeColumns("process", ({ processTimes }) => processTimes) : []),
    ...(has("warmMilliseconds") ? [warmColumn] : []),
    ...(has("apart") ? apartColumns : []),
    ...Object.keys(errors?.ours ?? {}).map(errorColumn),
  ];
}

/** Least times of both, and the ratios ours over theirs. */
function timeColumns(what: string, timesIn: (row: Row) => Times | undefined): Column[] {
  const column = (head: string, width: number, of: (times: Times) => string): Column => {
    return { head, width, of: (row) => ofSome(timesIn(row), of) };
  };
  return [
    column(`ours ${what}`, 12, ({ least }) => least.ours.toFixed(1)),
    column(`theirs ${what}`, 14, ({ least }) => least.theirs.toFixed(1)),
    column("of least", 8, ({ ratio }) => ratio.least.toFixed(2)),
    column("median", 6, ({ ratio }) => ratio.median.toFixed(2)),
    column("middle half", 11, ({ ratio }) => ratio.middle.map((each) => each.toFixed(2)).join("-")),
  ];
}

const warmColumn: Column = { head: "ours warm", width: 9, of: (row) => row.warmMilliseconds?.toFixed(1) ?? "" };

const apartColumns = (["seepage", "radius"] as const).map((key) => ({
  head: `${key} apart %`,
  width: 15,
  of: ({ apart }: Row) => ofSome(apart, (shares) => percent(shares[key])),
}));

const errorColumn = (key: string): Column => ({
  head: `${key} %`,
  width: 13,
  of: ({ errors }) => ofSome(errors, ({ ours, theirs }) => `${percent(ours[key])}/${percent(theirs[key])}`),
});

const ofSome = <T>(value: T | undefined, words: (value: T) => string) => (value === undefined ? "" : words(value));

const percent = (share: number | undefined) => (share === undefined ? "-" : (100 * share).toFixed(2));

function verdict(rows: readonly Row[], side: keyof Pair<unknown>): string {
  const named = rows.map((row) => ({ row, in: worse(row, side) })).filter((each) => each.in.length > 0);
  const list = named.map(({ row, in: where }) => `${row.name}, ${row.setting}, ${row.grid} grid: ${where.join(", ")}`);
  const other = side === "ours" ? "theirs" : "ours";
  const found = list.length === 0 ? "none" : `${list.length} of ${rows.length}\n  ${list.join("\n  ")}`;
  return `Errors of ${side} above ${other} by more than ${100 * WORSE_BY} points: ${found}`;
}
