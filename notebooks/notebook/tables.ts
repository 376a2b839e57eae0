import { entry } from "../../model/public/plan.ts";
import type { Table } from "./notebook.ts";

const cellText = (value: number | string, { digits = 2 }: Table["columns"][number]): string =>
  typeof value === "string" ? value : value.toFixed(digits);

/** A table's rows as a person reads them. */
export const rowTexts = ({ columns, rows }: Table): string[][] =>
  rows.map((row) => row.map((value, i) => cellText(value, entry(columns, i))));

/** Numbers in full; text with a comma or a quote is quoted. */
export function csv({ columns, rows }: Table): string {
  const field = (value: number | string) =>
    /[",\n]/.test(String(value)) ? `"${String(value).replaceAll('"', '""')}"` : String(value);
  return `${[columns.map(({ heading }) => heading), ...rows].map((row) => row.map(field).join(",")).join("\n")}\n`;
}
