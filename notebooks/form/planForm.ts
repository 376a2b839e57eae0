/** Between the form (settings by path, in the model's units) and the plan as a person types it. */
import {
  type Checked,
  type CheckedPlan,
  DEFAULT_MOISTURE,
  MONTHS,
  type Plan,
  planSchema,
  readJson,
  resolvePlan,
  soundValue,
} from "../../model/public/plan.ts";
import { fromModel, type Quantity, suctionKPa, toModel, type UnitSystem } from "../../model/public/units.ts";
import demoPlan from "../demo-plan.json" with { type: "json" };
import { type Control, isShown, type Settings } from "./controlTypes.ts";
import { fromPerson, toPerson } from "./measures.ts";
import { emptyForm, planControls } from "./planControls.ts";

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
export function readPlan(filled: Filled): Checked<Plan> {
  return resolvePlan(typedPlan(filled));
}

/** The plan as the person would have typed it, in their own units. */
export function typedPlan({ settings, units }: Filled): object {
  const typed = { version: 1, units };
  for (const { field, toTyped, shownWhen } of textFields)
    if (settings[field] !== undefined && shownWhen(settings))
      setAt(typed, field, toTyped(String(settings[field]), units));
  for (const control of planControls) {
    const value = isShown(control, settings) ? asTyped(control, settings[control.field]!, units) : null;
    if (value !== null) setAt(typed, control.field, value);
  }
  return typed;
}

/** What the plan says for a setting; null: nothing. */
function asTyped(control: Control, setting: number | string, units: UnitSystem): unknown {
  if (control.kind === "number") return tidy(toPerson(Number(setting), control.measure, units));
  if (control.kind === "text") return String(setting);
  const typed = control.options.find(({ value }) => value === setting)?.typed;
  return typed === undefined ? setting : typed;
}

/** The setting for what a plan says. */
function asSetting(control: Control, value: unknown, units: UnitSystem): unknown {
  if (control.kind === "choice")
    return control.options.find(({ typed }) => typed !== undefined && typed === value)?.value ?? value;
  return control.kind === "number" && typeof value === "number" ? fromPerson(value, control.measure, units) : value;
}

/** The text of a plan file as the form's settings; its faults where it is not a plan. */
export function filledOfText(text: string): Checked<Filled> {
  const json = readJson(text, "the plan file");
  return json.ok ? filledOf(json.value) : json;
}

function filledOf(typed: unknown): Checked<Filled> {
  const resolved = resolvePlan(typed);
  if (!resolved.ok) return resolved;
  const full = planSchema.parse(typed);
  const { units } = full;
  const texts = textFields.map(({ field, toSetting }) => [field, toSetting(valueAt(full, field), units)]);
  const values = planControls.map((control) => [
    control.field,
    asSetting(control, valueAt(full, control.field), units),
  ]);
  const given = Object.fromEntries([...texts, ...values].filter(([, value]) => value !== undefined && value !== null));
  const settings = { ...emptyForm, ...leftOut(resolved.value), ...given, ...waysOf(full) };
  return { ok: true, value: { units, settings } };
}

/** Choices between two ways of saying a thing, which the plan itself does not hold. */
function waysOf(full: CheckedPlan): Settings {
  const { sowingDay, startMoisture, startSuctionKPa, edgeDistance, potPlaces, weather, line } = full;
  const hasAir = weather.kind === "own" && weather.months.january.humidity !== undefined;
  return {
    airHow: hasAir ? "known" : "unknown",
    tubeEndHow: line.tube.endHeight === undefined ? "rim" : "own",
    placesHow: potPlaces === null ? "grid" : "hand",
    edgeHow: edgeDistance === undefined ? "usual" : "own",
    sowWhen: sowingDay === null ? "first" : "own",
    startMoisture: startMoisture ?? (startSuctionKPa === undefined ? DEFAULT_MOISTURE : "own"),
  };
}

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

/** Parts of a plan that have no control, kept so that a plan that is loaded and saved loses nothing. */
const textFields = [
  textField("name"),
  textField("notes"),
  textField("crop.name", (settings) => settings["crop.kind"] === "own"),
  pointsField("pot.points", "length", (settings) => settings["pot.shape"] === "profile"),
  pointsField("bed.points", "distance", (settings) => settings["bed.shape"] === "polygon"),
  pointsField("potPlaces", "distance", (settings) => settings.placesHow === "hand" && settings.potPlaces !== "[]"),
];

function textField(field: string, shownWhen = (_: Settings) => true) {
  const same = (text: unknown) => (text === undefined ? undefined : String(text));
  return { field, shownWhen, toTyped: same as (text: string, units: UnitSystem) => unknown, toSetting: same };
}

/** A list of points, each told by lengths; in the settings as a text, in cm. */
function pointsField(field: string, quantity: Quantity, shownWhen: (settings: Settings) => boolean) {
  const toTyped = (text: string, units: UnitSystem) =>
    eachLength(JSON.parse(text), (cm) => tidy(fromModel(cm, quantity, units)));
  const toSetting = (points: unknown, units: UnitSystem) =>
    points ? JSON.stringify(eachLength(points as Point[], (length) => toModel(length, quantity, units))) : undefined;
  return { field, shownWhen, toTyped, toSetting };
}

type Point = Record<string, number>;

const eachLength = (points: Point[], change: (length: number) => number): Point[] =>
  points.map((point) => Object.fromEntries(Object.entries(point).map(([name, length]) => [name, change(length)])));

/** In seven figures, without the rounding of a change of units: what was typed as 8 in is 8 in again. */
const tidy = (value: number) => Number(value.toPrecision(7));

const valueAt = (object: object, path: string): unknown =>
  path.split(".").reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], object);

function setAt(object: object, path: string, value: unknown) {
  const keys = path.split(".");
  const parent = keys.slice(0, -1).reduce<Record<string, unknown>>(
    (inner, key) => {
      inner[key] ??= {};
      return inner[key] as Record<string, unknown>;
    },
    object as Record<string, unknown>,
  );
  parent[keys.at(-1)!] = value;
}
