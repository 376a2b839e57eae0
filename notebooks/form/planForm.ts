/** Between the form (settings by path, in the model's units) and the plan as a person types it. */
import {
  type Checked,
  type ListRow,
  MONTHS,
  PLAN_INPUTS,
  type Plan,
  type RecordReader,
  type Row,
  readJson,
  resolvePlan,
  type Settings,
  soundValue,
} from "../../model/public/plan.ts";
import { suctionKPa, toPerson, type UnitSystem } from "../../model/public/units.ts";
import demoPlan from "../demo-plan.json" with { type: "json" };
import { applies, emptyForm, NO, YES } from "./inputControls.ts";

/** What a person has filled in. */
export interface Filled {
  settings: Settings;
  units: UnitSystem;
}

/** What was kept from the last visit; before that, the demo bed. It may hold faults, as the person left them. */
export function initialFilled(kept: unknown): Filled {
  const demo = soundValue(filledOf(demoPlan));
  return isFilled(kept) ? { units: kept.units, settings: { ...demo.settings, ...kept.settings } } : demo;
}

/** The kept filling if its plan can be used, else the demo bed. */
export function usableFilled(kept: unknown): Filled {
  const filled = initialFilled(kept);
  return readPlan(filled).ok ? filled : initialFilled(undefined);
}

function isFilled(kept: unknown): kept is Filled {
  const { units, settings } = (kept ?? {}) as Partial<Filled>;
  return (units === "metric" || units === "us") && typeof settings === "object" && settings !== null;
}

/** The form's plan, checked, with nothing left open. */
export function readPlan(filled: Filled, readRecord?: RecordReader): Checked<Plan> {
  return resolvePlan(typedPlan(filled), readRecord);
}

/** The plan as the person would have typed it, in their own units. */
export function typedPlan({ settings, units }: Filled): object {
  const typed = {};
  for (const input of PLAN_INPUTS) {
    const value = applies(input, settings) ? asTyped(input.row, settings[input.path], units) : undefined;
    if (value !== undefined) setAt(typed, input.path, value);
  }
  return typed;
}

/** What the plan says for a setting; undefined: nothing. */
function asTyped(row: Row, setting: number | string | undefined, units: UnitSystem): unknown {
  if (row.kind === "fixed") return row.value(units);
  if (setting === undefined) return undefined;
  switch (row.kind) {
    case "number":
      return tidy(toPerson(Number(setting), row.measure, units));
    case "choice":
      return row.values.find((value) => value === setting);
    case "flag":
      return setting === YES;
    case "text":
      return String(setting);
    case "list":
      return typedPoints(row, String(setting), units);
  }
}

/** A list that holds nothing is left out. */
function typedPoints({ fields }: ListRow, setting: string, units: UnitSystem): object[] | undefined {
  const points: Record<string, number>[] = JSON.parse(setting);
  const typed = ([name, value]: [string, number]) => {
    const row = fields[name];
    return [name, row ? tidy(toPerson(value, row.measure, units)) : value];
  };
  return points.length === 0 ? undefined : points.map((point) => Object.fromEntries(Object.entries(point).map(typed)));
}

/** The setting for what a plan says, in the model's units; undefined: nothing. */
function asSetting(row: Row, value: unknown): number | string | undefined {
  if (value === undefined || value === null || row.kind === "fixed") return undefined;
  if (row.kind === "list") return JSON.stringify(value);
  if (row.kind === "flag") return value === true ? YES : NO;
  return value as number | string;
}

/** The text of a plan file as the form's settings; its faults where it is not a plan. */
export function filledOfText(text: string): Checked<Filled> {
  const json = readJson(text, "the plan file");
  return json.ok ? filledOf(json.value) : json;
}

function filledOf(typed: unknown): Checked<Filled> {
  const resolved = resolvePlan(typed);
  if (!resolved.ok) return resolved;
  const { value: plan, filled } = resolved;
  const given: Settings = Object.fromEntries(
    PLAN_INPUTS.flatMap(({ path, row }) => {
      const setting = asSetting(row, valueAt(filled, path));
      return setting === undefined ? [] : [[path, setting]];
    }),
  );
  const settings = { ...emptyForm, ...leftOut(plan), ...given, ...waysOf(given) };
  return { ok: true, value: { units: plan.units, settings } };
}

/** Whether an input is given, where the form asks so. */
const waysOf = (given: Settings): Settings =>
  Object.fromEntries(
    PLAN_INPUTS.flatMap(({ path, row: { way } }) => {
      if (!way) return [];
      return [[way.path, path in given ? way.given.value : (given[way.path] ?? way.leftOut.value)]];
    }),
  );

/** What a plan leaves open and its checked form fills in. */
function leftOut(plan: Plan): Settings {
  const rainDays = MONTHS.map((month) => [`weather.months.${month}.rainDays`, plan.weather.months[month].rainDays]);
  return {
    ...seedDefaults(plan),
    spacing: plan.bed.spacing,
    edgeDistance: plan.bed.edgeDistance,
    ...bedSize(plan),
    "line.tube.endHeight": plan.line.tubeEndHeight,
    "crop.wiltingSuctionKPa": suctionKPa(plan.crop.uptake.h4),
    ...Object.fromEntries(rainDays),
  };
}

const bedSize = ({ bed: { outline } }: Plan): Settings =>
  outline.shape === "rectangle" ? { "bed.length": outline.length, "bed.width": outline.width } : {};

/** What a plan leaves to its crop. */
function seedDefaults({ sowing }: Plan): Settings {
  if (sowing.kind !== "seed") return {};
  return {
    "sowing.sowingDepth": sowing.sowingDepth,
    "sowing.emergenceDays": sowing.emergenceDays,
    "sowing.sproutingSuctionKPa": Math.round(suctionKPa(sowing.sproutingHead)),
  };
}

/** In seven figures, without the rounding of a change of units: what was typed as 8 in is 8 in again. */
const tidy = (value: number) => Number(value.toPrecision(7));

const valueAt = (object: object, path: string): unknown =>
  path.split(".").reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], object);

function setAt(object: object, path: string, value: unknown) {
  const [key = "", ...rest] = path.split(".");
  const values = object as Record<string, unknown>;
  if (rest.length === 0) values[key] = value;
  else {
    values[key] ??= {};
    setAt(values[key] as object, rest.join("."), value);
  }
}
