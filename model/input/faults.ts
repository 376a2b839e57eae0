import { range } from "d3-array";
import { z } from "zod";
import { entry, last } from "./lists.ts";

/** One thing wrong with an input, in plain words. */
export interface Fault {
  /** Where it stands in the input: "pot.wallThickness", "ask.days.2"; "" for the input as a whole. */
  path: string;
  field: string;
  value: unknown;
  /** What the value may be, with range and unit. */
  allowed: string;
  message: string;
}

export type Checked<T> = { ok: true; value: T } | { ok: false; faults: Fault[] };

/** For input that must be right, such as our own; throws an Error with every fault where it is not. */
export function soundValue<T>(checked: Checked<T>): T {
  if (checked.ok) return checked.value;
  throw new Error(checked.faults.map(({ message }) => message).join("\n"));
}

/** A check across several fields. It sees only values that are right by themselves. */
export type Rule = (input: Reader) => (Fault | false)[];

export interface Reader {
  /** The number at a path, its default where left out; NaN (no comparison holds) where missing or itself at fault. */
  number(path: string): number;
  /** The word at a path: which alternative the input has chosen. */
  word(path: string): string | undefined;
  /** Whether anything was typed at a path. */
  isGiven(path: string): boolean;
  /** How many items the list at a path has. */
  count(path: string): number;
  /** The group of values at a path, defaults filled in; undefined where missing, or where anything in it is at fault. */
  part(path: string): unknown;
  /** The fault that the value at `path`, or the one reckoned from what stands there, should have been `allowed`. */
  fault(path: string, allowed: string, value?: unknown): Fault;
}

/** Holds an input against a schema and the rules across its fields; every fault is collected. */
export function checkInput<S extends z.ZodType>(schema: S, input: unknown, rules: Rule[]): Checked<z.output<S>> {
  const parsed = schema.safeParse(input);
  const ownFaults = parsed.success ? [] : parsed.error.issues.flatMap((issue) => faultsOfIssue(schema, input, issue));
  const reader = readerOf(schema, input, ownFaults);
  const faults = [...ownFaults, ...rules.flatMap((rule) => rule(reader)).filter((fault) => fault !== false)];
  return parsed.success && faults.length === 0 ? { ok: true, value: parsed.data } : { ok: false, faults };
}

/** JSON text as a value, or the one fault that it is not JSON. */
export function readJson(text: string, what: string): Checked<unknown> {
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, "")) };
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    const allowed = "a complete JSON text";
    return {
      ok: false,
      faults: [{ path: "", field: what, value: text, allowed, message: `${what} is not ${allowed} (${detail})` }],
    };
  }
}

/** A fault whose message reads "wall is 12 cm; it must be from 0.3 to 10 cm". */
export function fault(path: string, field: string, value: unknown, allowed: string, unit = ""): Fault {
  const state = value === undefined ? "missing" : valueWords(value, unit);
  return { path, field, value, allowed, message: `${field} is ${state}; it must be ${allowed}` };
}

/** Faults as lines for a terminal: path, then the message. */
export function faultLines(faults: readonly Fault[]): string {
  return faults.map(({ path, message }) => `  ${path === "" ? message : `${path}: ${message}`}`).join("\n");
}

/** The nearest of some names to a mistyped or shortened one, or undefined where none is near. */
export function nearest(name: string, names: readonly string[]): string | undefined {
  const shortened = names.find((other) => name.length > 2 && other.toLowerCase().startsWith(name.toLowerCase()));
  if (shortened !== undefined) return shortened;
  const distances = names.map((other) => editDistance(name.toLowerCase(), other.toLowerCase()));
  const least = Math.min(...distances);
  return least <= Math.max(Math.min(2, name.length - 2), 0.4 * name.length)
    ? names[distances.indexOf(least)]
    : undefined;
}

type Path = readonly PropertyKey[];

function faultsOfIssue(schema: z.ZodType, input: unknown, issue: z.core.$ZodIssue): Fault[] {
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => unknownKey(schema, input, [...issue.path, key]));
  const value = valueAt(input, issue.path);
  const { field, unit } = labelOf(schema, input, issue.path);
  const here = schemaAt(schema, input, issue.path);
  const allowed = (here && metaOf(here).description ? undefined : choicesOf(issue, value)) ?? allowedAt(here, value);
  return [fault(dotted(issue.path), field, value, allowed, unit)];
}

function unknownKey(schema: z.ZodType, input: unknown, path: Path): Fault {
  const key = String(path.at(-1));
  const known = keysOf(schemaAt(schema, input, path.slice(0, -1)));
  const meant = nearest(key, known);
  const allowed = `one of ${known.join(", ")}`;
  const hint = meant === undefined ? `known here: ${known.join(", ")}` : `did you mean ${meant}?`;
  return {
    path: dotted(path),
    field: key,
    value: valueAt(input, path),
    allowed,
    message: `${dotted(path)} is not a known key; ${hint}`,
  };
}

/** Where only certain words are allowed: which ones, and the one probably meant. */
function choicesOf(issue: z.core.$ZodIssue, value: unknown): string | undefined {
  const choices =
    issue.code === "invalid_value"
      ? issue.values
      : issue.code === "invalid_union" && "options" in issue
        ? issue.options
        : undefined;
  if (choices === undefined) return undefined;
  const words = named(choices);
  const meant = typeof value === "string" ? nearest(value, words) : undefined;
  return `${words.length > 1 ? "one of " : ""}${words.join(", ")}${meant === undefined ? "" : ` (did you mean ${meant}?)`}`;
}

function allowedAt(schema: Schema | undefined, value: unknown): string {
  const described = schema && metaOf(schema).description;
  const isNumber = schema?._zod.def.type === "number" && !Number.isFinite(value);
  return [isNumber && "a number", described ?? (isNumber ? "" : shapeWords(schema))].filter(Boolean).join(" ");
}

function shapeWords(schema: Schema | undefined): string {
  const def = schema?._zod.def;
  if (def?.type === "string") return "a text";
  if (def?.type === "array") return "a list";
  const [key] = keysOf(schema);
  return def?.type === "union" && key !== undefined
    ? `a group of values whose ${key} is one of ${alternatives(def.options, key).join(", ")}`
    : `a group of values: ${keysOf(schema).join(", ")}`;
}

function alternatives(options: readonly z.core.$ZodType[], key: string): string[] {
  return named(options.flatMap((option) => [...(option._zod.propValues?.[key] ?? [])]));
}

/** Without the choice of leaving a word out. */
const named = (choices: readonly unknown[]) => choices.filter((choice) => choice !== undefined).map(String);

function valueWords(value: unknown, unit: string): string {
  if (typeof value === "number") return Number.isFinite(value) ? `${figures(value)} ${unit}`.trim() : "not a number";
  if (typeof value === "string") return JSON.stringify(value);
  if (value === null) return "empty (null)";
  if (typeof value === "object")
    return Array.isArray(value) ? (value.length > 0 ? "a list" : "an empty list") : "a group of values";
  return String(value);
}

/** Six figures: enough to know a typed number again, without the tail of a converted one. */
export function figures(value: number): number {
  return Number(value.toPrecision(6));
}

/** A lower limit in four figures, rounded up: whatever keeps to the rounded one is allowed. */
export const lowerLimit = (limit: number): number => fourFigures(limit, Math.ceil);

/** An upper limit in four figures, rounded down. */
export const upperLimit = (limit: number): number => fourFigures(limit, Math.floor);

function fourFigures(limit: number, toWhole: (value: number) => number): number {
  if (limit === 0) return 0;
  const decimals = 3 - Math.floor(Math.log10(Math.abs(limit)));
  // Twelve figures first: else the rounding of binary fractions moves a limit such as 10.16 by a whole step.
  const whole = toWhole(Number((limit * 10 ** decimals).toPrecision(12)));
  return Number((whole / 10 ** decimals).toPrecision(4));
}

function readerOf(schema: z.ZodType, input: unknown, ownFaults: Fault[]): Reader {
  const atFault = new Set(ownFaults.map(({ path }) => path));
  const valueOrDefault = (path: string) =>
    schemaAt(schema, input, keys(path)) && !atFault.has(path)
      ? (valueAt(input, keys(path)) ?? defaultAt(schema, input, keys(path)))
      : undefined;
  /** Nobody typed it, so nobody misses its further figures. */
  const shownDefault = (path: string) => {
    const value = defaultAt(schema, input, keys(path));
    return typeof value === "number" ? Number(value.toPrecision(4)) : value;
  };
  return {
    number(path) {
      const value = valueOrDefault(path);
      return typeof value === "number" ? value : Number.NaN;
    },
    word(path) {
      const value = valueAt(input, keys(path));
      return typeof value === "string" ? value : undefined;
    },
    isGiven: (path) => valueAt(input, keys(path)) !== undefined,
    count(path) {
      const value = valueOrDefault(path);
      return Array.isArray(value) ? value.length : 0;
    },
    part(path) {
      const here = schemaAt(schema, input, keys(path));
      const parsed = here && z.safeParse(here, valueAt(input, keys(path)));
      return parsed?.success ? parsed.data : undefined;
    },
    fault(path, allowed, value = valueAt(input, keys(path)) ?? shownDefault(path)) {
      const { field, unit } = labelOf(schema, input, keys(path));
      return fault(path, field, value, allowed, unit);
    },
  };
}

const keys = (path: string) => path.split(".");
const dotted = (path: Path) => path.map(String).join(".");

function valueAt(input: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, key) => (typeof value === "object" && value !== null ? Reflect.get(value, key) : undefined),
    input,
  );
}

type Schema = z.core.$ZodTypes;

/** The schema that a path leads to, following in each union the alternative the input has chosen. */
function schemaAt(schema: z.core.$ZodType, input: unknown, path: Path): Schema | undefined {
  const here = chosen(bare(schema), input);
  const [key, ...rest] = path;
  if (key === undefined || here === undefined) return here;
  const next = childOf(here, key);
  return next && schemaAt(next, valueAt(input, [key]), rest);
}

function childOf(schema: Schema, key: PropertyKey): z.core.$ZodType | undefined {
  const { def } = schema._zod;
  if (def.type === "array") return def.element;
  return def.type === "object" && Object.hasOwn(def.shape, key) ? def.shape[String(key)] : undefined;
}

/** Without the wrappers that make it optional. */
function bare(schema: z.core.$ZodType): Schema {
  const { def } = (schema as Schema)._zod;
  return "innerType" in def ? bare(def.innerType) : (schema as Schema);
}

/** In a union told apart by one key, the alternative that the input names; the union itself where it names none. */
function chosen(schema: Schema, input: unknown): Schema {
  const key = discriminatorOf(schema);
  const { def } = schema._zod;
  if (key === undefined || def.type !== "union") return schema;
  const name = valueAt(input, [key]);
  return (
    (def.options.find((option) => option._zod.propValues?.[key]?.has(name as string)) as Schema | undefined) ?? schema
  );
}

function discriminatorOf(schema: Schema): string | undefined {
  const { def } = schema._zod;
  return def.type === "union" && "discriminator" in def ? String(def.discriminator) : undefined;
}

function keysOf(schema: Schema | undefined): string[] {
  if (schema === undefined) return [];
  const { def } = schema._zod;
  if (def.type === "object") return Object.keys(def.shape);
  return [discriminatorOf(schema)].filter((key) => key !== undefined);
}

function defaultAt(schema: z.ZodType, input: unknown, path: Path): unknown {
  const key = path.at(-1);
  if (key === undefined) return undefined;
  const parent = schemaAt(schema, input, path.slice(0, -1));
  const def = parent && (childOf(parent, key) as Schema | undefined)?._zod.def;
  return def?.type === "default" ? def.defaultValue : undefined;
}

const metaOf = (schema: Schema) => z.globalRegistry.get(schema) ?? {};

function labelOf(schema: z.ZodType, input: unknown, path: Path): { field: string; unit: string } {
  const here = schemaAt(schema, input, path);
  const { title, unit = "" } = here ? metaOf(here) : {};
  if (title !== undefined) return { field: title, unit };
  const parent = path.length > 0 ? schemaAt(schema, input, path.slice(0, -1)) : undefined;
  return { field: [parent && metaOf(parent).title, path.at(-1)].filter(Boolean).map(String).join(" "), unit };
}

/** Levenshtein distance: fewest single-letter changes from one word to the other. */
function editDistance(from: string, to: string): number {
  const letters = [...to];
  let row = range(letters.length + 1);
  for (const [i, letter] of [...from].entries()) {
    const above = row;
    row = [i + 1];
    for (const [j, other] of letters.entries())
      row.push(Math.min(last(row) + 1, entry(above, j + 1) + 1, entry(above, j) + (letter === other ? 0 : 1)));
  }
  return last(row);
}
