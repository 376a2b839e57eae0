/** FAO Irrigation and Drainage Paper 56 (Allen et al. 1998): reference-data/checks/fao56.json. */
import { fao56 } from "../../model/checks/loadChecks.ts";
import { expectClose } from "./close.ts";

const { rows } = fao56();
export type Row = (typeof rows)[number];

export const from = <S extends Row["source"]>(source: S) =>
  rows.filter((row): row is Extract<Row, { source: S }> => row.source === source);

export interface Printed {
  value: number;
  rounding: number;
}

/** To the rounding of what was printed. */
export const expectPrinted = (actual: number, { value, rounding }: Printed, unit: string, what: string) =>
  expectClose(actual, value, { tolerance: rounding, unit, what });
