/**
 * One row per input of the saved plan: its name, words, range, unit, default, how it is shown, and what it bears on.
 * Rows stand in nested objects that mirror the plan. Its schema (`rowSchema.ts`), the change to the model's units and the
 * list of controls with what a form starts from (`rowWalk.ts`) all come from them. Rows are plain data in the model's
 * units; their types carry whether a plan may leave them out.
 */
import type { Range } from "../../input/fields.ts";
import type { Measure } from "../../units/measures.ts";
import type { UnitSystem } from "../../units/units.ts";
import type { PartName } from "./partNames.ts";

/** Values of a form, by path: numbers in the model's unit, choices by name, lists of points as JSON text in cm. */
export type Settings = Readonly<Record<string, number | string>>;

export type Row = NumberRow | ChoiceRow | FlagRow | TextRow | FixedRow | ListRow;
export type Node = Row | Group | Union;
export type Fields = Readonly<Record<string, Node>>;

/** Without either, a plan must give the value. A default of null: nothing, which a plan may say too. */
interface Presence {
  optional?: true;
  default?: unknown;
}

/** How a form shows an input, or why it has no control for it. */
interface Shown {
  label?: string;
  /** A line under the control. */
  help?: string | ((units: UnitSystem) => string);
  noControl?: string;
  /** The choice between giving this and leaving it out. */
  way?: Way;
}

interface Common extends Shown {
  /** Parts of the resolved plan that change with it; left out: those of what it stands in. */
  bearsOn?: readonly PartName[];
}

/** A choice of the form that the plan does not hold: whether something is given. */
export interface Way {
  path: string;
  label: string;
  /** The value of the choice where it is given, and the one where it is left out, with their words. */
  given: { value: string; label: string };
  leftOut: { value: string; label: string };
}

/** From and to. */
type Ends = readonly [number, number];

export interface NumberRow extends Presence, Common {
  kind: "number";
  title: string;
  measure: Measure;
  range: Range;
  isWhole?: true;
  /** The unit in words, where it is not the one of the measure. */
  unit?: string;
  /** Added to what a metric plan may say. */
  metricHint?: string;
  /** Where the slider is narrower than the range. */
  slider?: Ends;
  /** Of the slider in the person's unit: one for both systems, or metric and US. */
  step?: number | Ends;
  /** Where a form starts, when the plan has no default. */
  start?: number;
}

export interface ChoiceRow extends Presence, Common {
  kind: "choice";
  title: string;
  values: readonly string[];
  style?: "select" | "radio";
  /** In the order in which they are offered; left out: the values themselves. */
  labels?: Readonly<Record<string, string>>;
  start?: string;
  /** Other settings that choosing a value fills. */
  fills?: (value: string) => Settings;
}

/** The default of a choice that follows the plan's own unit system. */
export const UNITS_OF_THE_PLAN = "units of the plan";

export interface FlagRow extends Common {
  kind: "flag";
  title: string;
  default: boolean;
}

export interface TextRow extends Presence, Common {
  kind: "text";
  title: string;
  /** Letters at most. */
  longest: number;
  start?: string;
}

/** What a program writes into every plan. */
export interface FixedRow extends Common {
  kind: "fixed";
  title: string;
  value: (units: UnitSystem) => number | string;
  description?: string;
}

/** A list of points, each given by lengths. */
export interface ListRow extends Presence, Common {
  kind: "list";
  title: string;
  description: string;
  itemTitle?: string;
  length: { min: number; max: number };
  fields: Readonly<Record<string, NumberRow>>;
  start?: readonly object[];
}

/** Values that belong together; those of one that may be left out have defaults all. */
export interface Group {
  kind: "group";
  title: string;
  fields: Fields;
  isRequired?: true;
  bearsOn?: readonly PartName[];
}

/** Fields that apply where the one named by `key` says so. */
export interface Union extends Presence, Common {
  kind: "union";
  title: string;
  key: string;
  options: Readonly<Record<string, Fields>>;
  /** How faults name the whole of an option, with its unit. */
  wholes?: Readonly<Record<string, { title: string; measure: Measure }>>;
  style?: "select" | "radio";
  labels?: Readonly<Record<string, string>>;
  start?: string;
}

type Rest<R, K extends string> = Omit<R, "kind" | "title" | K>;

export const number = <const O extends Rest<NumberRow, "measure" | "range">>(
  title: string,
  measure: Measure,
  range: Ends | Range,
  rest: O,
) => ({
  kind: "number" as const,
  title,
  measure,
  range: "0" in range ? { min: range[0], max: range[1] } : range,
  ...rest,
});

export const length = <const O extends Rest<NumberRow, "measure" | "range">>(title: string, range: Ends, rest: O) =>
  number(title, "length", range, rest);

export const days = <const O extends Rest<NumberRow, "measure" | "range">>(title: string, range: Ends, rest: O) =>
  number(title, "days", range, rest);

export const percent = <const O extends Rest<NumberRow, "measure" | "range">>(title: string, rest: O) =>
  number(title, "%", [0, 100], rest);

export const choice = <const V extends string, const O extends Rest<ChoiceRow, "values">>(
  title: string,
  values: readonly V[],
  rest: O,
) => ({ kind: "choice" as const, title, values, ...rest });

export const flag = <const O extends Rest<FlagRow, "">>(title: string, rest: O) => ({
  kind: "flag" as const,
  title,
  ...rest,
});

export const text = <const O extends Rest<TextRow, "longest"> & { longest?: number }>(title: string, rest: O) => ({
  kind: "text" as const,
  title,
  longest: 10_000,
  ...rest,
});

export const fixed = <const V extends number | string>(
  title: string,
  value: (units: UnitSystem) => V,
  rest: Rest<FixedRow, "value">,
) => ({ kind: "fixed" as const, title, value, ...rest });

export const list = <const F extends ListRow["fields"], const O extends Rest<ListRow, "fields">>(
  title: string,
  fields: F,
  rest: O,
) => ({ kind: "list" as const, title, fields, ...rest });

export const group = <const F extends Fields, const O extends Rest<Group, "fields">>(
  title: string,
  fields: F,
  rest: O,
) => ({ kind: "group" as const, title, fields, ...rest });

export const union = <
  const K extends string,
  const F extends Union["options"],
  const O extends Rest<Union, "key" | "options">,
>(
  title: string,
  key: K,
  options: F,
  rest: O,
) => ({ kind: "union" as const, title, key, options, ...rest });
