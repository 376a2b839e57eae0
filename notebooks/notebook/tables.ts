import { csvFormatRows } from "d3-dsv";
import { entry } from "../../model/public/plan.ts";
import type { Table } from "./notebook.ts";

const cellText = (value: number | string, { digits = 2 }: Table["columns"][number]): string =>
  typeof value === "string" ? value : value.toFixed(digits);

/** A heading, what stands below it in the row of a datum, and for numbers the digits after the point (2 when left out). */
export type Column<T> = readonly [
  heading: string,
  value: (datum: T, index: number) => number | string,
  digits?: number,
];

/** A table with a row for each datum. */
export const tableOf = <T>(
  name: string,
  caption: string,
  data: readonly T[],
  columns: readonly Column<T>[],
): Table => ({
  kind: "table",
  name,
  caption,
  columns: columns.map(([heading, _, digits]) => (digits === undefined ? { heading } : { heading, digits })),
  rows: data.map((datum, i) => columns.map(([_, value]) => value(datum, i))),
});

/** A table's rows as a person reads them. */
export const rowTexts = ({ columns, rows }: Table): string[][] =>
  rows.map((row) => row.map((value, i) => cellText(value, entry(columns, i))));

/** Numbers in full. */
export const csv = ({ columns, rows }: Table): string =>
  `${csvFormatRows([columns.map(({ heading }) => heading), ...rows.map((row) => row.map(String))])}\n`;
