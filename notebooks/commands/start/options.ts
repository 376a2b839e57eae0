/** What a person may ask of the start command, and the plan that comes of it. */
import {
  type Checked,
  type Fault,
  fault,
  figures,
  nearest,
  type Plan,
  readJson,
  resolvePlan,
} from "../../../model/public/plan.ts";
import { fromModel, UNIT_SYSTEMS, type UnitSystem } from "../../../model/public/units.ts";
import { type PotRow, pots } from "../../../reference-data/load.ts";
import demoPlan from "../../demo-plan.json" with { type: "json" };
import { filledOfText, typedPlan } from "../../form/planForm.ts";
import { type GivenOptions, type OptionTypes, readOptions, readTextFile } from "../commandOptions.ts";

export interface Start {
  plan: Plan;
  /** The demo bed, perhaps changed by options. */
  isInvented: boolean;
  printOnly: boolean;
  port: number;
}

const OPTIONS = {
  soil: { type: "string" },
  pot: { type: "string" },
  "rim-diameter": { type: "string" },
  "base-diameter": { type: "string" },
  "pot-height": { type: "string" },
  "wall-thickness": { type: "string" },
  days: { type: "string" },
  units: { type: "string" },
  plan: { type: "string" },
  port: { type: "string" },
  "print-only": { type: "boolean" },
  help: { type: "boolean" },
} as const satisfies OptionTypes;

type OptionName = keyof typeof OPTIONS;

type Given = GivenOptions<typeof OPTIONS>;

/** Options that are a size of the pot, and its name in the plan. */
const SIZES = {
  "rim-diameter": "rimDiameter",
  "base-diameter": "baseDiameter",
  "pot-height": "height",
  "wall-thickness": "wallThickness",
} as const;

export const DEFAULT_PORT = 4170;

/** Reads the options and the plan they name; every fault of both at once. */
export async function readStart(args: string[]): Promise<Checked<Start>> {
  const { given, faults: optionFaults } = readOptions(args, OPTIONS, { help: "npm start -- --help" });
  const port = Number(given.port ?? DEFAULT_PORT);
  const text = await planText(given.plan);
  const read = resolveChanged(text.ok ? text.value : DEMO_TEXT, given);
  const faults = [
    optionFaults,
    portFaults(port, given),
    ...[text, read].map((each) => (each.ok ? [] : each.faults)),
  ].flat();
  if (!read.ok || faults.length > 0) return { ok: false, faults };
  const isInvented = given.plan === undefined;
  return { ok: true, value: { plan: read.value.plan, isInvented, printOnly: given["print-only"] !== undefined, port } };
}

function portFaults(port: number, { port: typed }: Given): Fault[] {
  const isPort = Number.isInteger(port) && port >= 1 && port <= 65_535;
  return isPort ? [] : [fault("--port", "port", typed, "a whole number from 1 to 65535")];
}

/** A plan file that cannot be read leaves the options to be checked against this. */
export const DEMO_TEXT = JSON.stringify(demoPlan);

/** The text of the plan named, or of the demo bed. */
export async function planText(path: string | undefined): Promise<Checked<string>> {
  return path === undefined ? { ok: true, value: DEMO_TEXT } : readTextFile(path, "--plan", "plan file");
}

/** A plan, and how it would be typed. */
export interface TypedPlan {
  typed: unknown;
  plan: Plan;
}

/** The plan with the options put in place of what it says. */
export function resolveChanged(text: string, given: Given): Checked<TypedPlan> {
  const json = readJson(text, "the plan file");
  if (!json.ok) return json;
  const typed = inUnits(json.value, text, given.units);
  const pot = namedPot(given.pot);
  const resolved = resolvePlan(isGroup(typed) ? changed(typed, given, pot.ok ? pot.value : undefined) : typed);
  const faults = [...(pot.ok ? [] : pot.faults), ...(resolved.ok ? [] : resolved.faults.map(asOption(given)))];
  return resolved.ok && pot.ok
    ? { ok: true, value: { typed: resolved.typed, plan: resolved.value } }
    : { ok: false, faults };
}

/** In the unit system asked for; as it is where that, or the plan, cannot be used. */
function inUnits(typed: unknown, text: string, units: string | undefined): unknown {
  const filled = filledOfText(text);
  if (!filled.ok || !isUnitSystem(units) || units === filled.value.units) return typed;
  return typedPlan({ ...filled.value, units });
}

const isUnitSystem = (word: unknown): word is UnitSystem => UNIT_SYSTEMS.some((system) => system === word);

type Group = Record<string, unknown>;

const isGroup = (value: unknown): value is Group =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function changed(typed: Group, given: Given, pot: PotRow | undefined): Group {
  const sizes = entries(SIZES).flatMap(([name, key]) =>
    given[name] === undefined ? [] : [[key, numberOf(given[name])]],
  );
  const potBefore = isGroup(typed.pot) ? typed.pot : {};
  return {
    ...typed,
    pot: { ...(pot ? asTyped(pot, potBefore, typed.units) : potBefore), ...Object.fromEntries(sizes) },
    ...(given.soil !== undefined && { soil: { kind: "class", name: given.soil } }),
    ...(given.days !== undefined && { days: numberOf(given.days) }),
    ...(given.units !== undefined && { units: given.units }),
  };
}

/** Words stay as they are, so that the plan's check can quote them. */
const numberOf = (text: string): unknown => (text.trim() === "" || Number.isNaN(Number(text)) ? text : Number(text));

function namedPot(name: string | undefined): Checked<PotRow | undefined> {
  const { rows } = pots();
  const pot = rows.find((row) => row.name === name);
  if (pot || name === undefined) return { ok: true, value: pot };
  const names = rows.map((row) => row.name);
  const meant = nearest(name, names);
  const hint = meant === undefined ? "" : ` (did you mean ${meant}?)`;
  return { ok: false, faults: [fault("--pot", "pot", name, `one of ${names.join(", ")}${hint}`)] };
}

/** A pot of the table as a person would type it; wall conductivity, rim and leak stay those of the pot before it. */
function asTyped({ name, source, flags, shape, ...lengths }: PotRow, before: Group, units: unknown): Group {
  const inUnit = (cm: number) => figures(fromModel(cm, "length", isUnitSystem(units) ? units : "metric"));
  const { wallConductivity, rimAboveSoil, plugLeak } = before;
  const sizes = Object.entries(lengths).map(([key, cm]) => [key, inUnit(cm)]);
  return { shape, ...Object.fromEntries(sizes), wallConductivity, rimAboveSoil, plugLeak };
}

/** A fault in a value that came from an option is told under the option's name. */
function asOption(given: Given) {
  const paths: [OptionName, string][] = [
    ["soil", "soil.name"],
    ["days", "days"],
    ["units", "units"],
    ...entries(SIZES).map(([name, key]): [OptionName, string] => [name, `pot.${key}`]),
  ];
  return (found: Fault): Fault => {
    const option = paths.find(([name, path]) => path === found.path && given[name] !== undefined);
    return option ? { ...found, path: `--${option[0]}` } : found;
  };
}

const entries = <K extends string, V>(record: Readonly<Record<K, V>>) => Object.entries(record) as [K, V][];
