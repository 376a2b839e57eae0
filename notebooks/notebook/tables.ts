import type { Table } from "./notebook.ts";

export const cellText = (value: number | string, { digits = 2 }: Table["columns"][number]): string =>
  typeof value === "string" ? value : value.toFixed(digits);

/** Numbers in full; text with a comma or a quote is quoted. */
export function csv({ columns, rows }: Table): string {
  const field = (value: number | string) =>
    /[",\n]/.test(String(value)) ? `"${String(value).replaceAll('"', '""')}"` : String(value);
  return `${[columns.map(({ heading }) => heading), ...rows].map((row) => row.map(field).join(",")).join("\n")}\n`;
}
