import { z } from "zod";

/** How far a value can be trusted: read on a public page, recalled, computed, or without any source. */
const flagSchema = z.enum([
  "seen",
  "seen in a reprint",
  "seen, generic",
  "memory",
  "memory, weak",
  "recomputed",
  "common practice, no source",
  "own choice",
]);

const sourceSchema = z.strictObject({
  /** Given where rows name their source. */
  id: z.string().optional(),
  /** The columns it stands for, parts (`mean.Ks` of `mean`) included; the source of the smallest part counts. */
  columns: z.array(z.string()).min(1),
  citation: z.string().min(1),
  doi: z.string().optional(),
  /** Table, page or equation. */
  place: z.string().min(1),
  obtained: z.string().min(1),
  flag: flagSchema,
});

/** A printed value and how far rounding can have moved it. */
export const printed = z.strictObject({ value: z.number(), rounding: z.number().positive() });

export type Source = z.infer<typeof sourceSchema>;

/** What every row has: a name, the id of its source where rows differ, flags of values that differ from the source's. */
export const rowSchema = z.strictObject({
  name: z.string().min(1),
  source: z.string().optional(),
  flags: z.record(z.string(), flagSchema).optional(),
});

type Row = z.infer<typeof rowSchema>;

/** One file of published values. */
export function tableSchema<R extends z.ZodType<Row>>(row: R) {
  return z.strictObject({
    title: z.string().min(1),
    units: z.record(z.string(), z.string()),
    sources: z.array(sourceSchema).min(1),
    rows: z.array(row).min(1),
  });
}

export interface Table<R extends Row> {
  units: Record<string, string>;
  sources: Source[];
  rows: R[];
}

/** The row of a name; a RangeError with the known names where there is none. */
export function rowNamed<R extends Row>({ rows }: Pick<Table<R>, "rows">, name: string): R {
  const row = rows.find((candidate) => candidate.name === name);
  if (row) return row;
  throw new RangeError(`${name} is not known; known are ${rows.map((known) => known.name).join(", ")}`);
}

/** Where a value comes from, with the value's own flag; `column` is `mean.Ks` for a value inside `mean`. */
export function sourceOf<R extends Row>({ sources }: Pick<Table<R>, "sources">, row: R, column: string): Source {
  const depth = (source: Source) => Math.max(...source.columns.map((part) => (covers(part, column) ? part.length : 0)));
  const [source] = sources
    .filter((candidate) => depth(candidate) > 0 && (row.source === undefined || row.source === candidate.id))
    .sort((a, b) => depth(b) - depth(a));
  if (!source) throw new RangeError(`${column} of ${row.name} has no source`);
  return { ...source, flag: row.flags?.[column] ?? source.flag };
}

function covers(part: string, column: string): boolean {
  return column === part || column.startsWith(`${part}.`);
}
