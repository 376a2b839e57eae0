import type { Table } from "./notebook.ts";

export const cellText = (value: number | string, { digits = 2 }: Table["columns"][number]): string =>
  typeof value === "string" ? value : value.toFixed(digits);
