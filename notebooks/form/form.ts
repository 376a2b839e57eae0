/** The state behind the controls: settings by field, the unit system, and the faults of what was typed. */
import { rollups } from "d3-array";
import { type Fault, PLAN_INPUTS, type Plan, type RecordReader, recordReader } from "../../model/public/plan.ts";
import type { UnitSystem } from "../../model/public/units.ts";
import type { LiveCells } from "../runtime/liveCells.ts";
import * as sources from "../runtime/sources.ts";
import { type Control, isShown, type Settings } from "./controlTypes.ts";
import { type Filled, readPlan } from "./planForm.ts";

/** What the controls show. */
export interface Form extends Filled {
  /** Messages by field. */
  faults: Readonly<Record<string, string>>;
  /** The last filling without a fault: what answer and picture belong to. */
  good: Filled;
}

export interface FormEvents {
  form(): Form;
  change(values: Settings): void;
  /** What was typed stays in the box; the value that was there before stays in force. */
  refuse(field: string, message: string): void;
  /** Everything at once: another unit system, or a plan from a file. */
  fill(filled: Filled): void;
}

/**
 * Hands the cells only what is right: while something is at fault they keep the last plan that could be used, which at
 * the start is that of `good`. `changed` is called after every change, and once for the start.
 */
export function createForm(
  controls: Control[],
  { start, good: lastGood }: { start: Filled; good: Filled },
  cells: LiveCells,
  changed: (form: Form) => void,
  readRecord: RecordReader = recordReader(),
): FormEvents {
  let filled: Filled = { ...start, settings: { ...initialView(controls), ...start.settings } };
  let good = lastGood;
  let refused: Record<string, string> = {};
  let planFaults: Record<string, string> = {};

  const form = (): Form => ({ ...filled, good, faults: { ...planFaults, ...refusedInSight() } });

  function refusedInSight() {
    const inSight = new Set(controls.filter((each) => isShown(each, filled.settings)).map(({ field }) => field));
    return Object.fromEntries(Object.entries(refused).filter(([field]) => inSight.has(field)));
  }
  function update() {
    const read = readPlan(filled, readRecord);
    planFaults = read.ok ? {} : Object.fromEntries(messagesByField(read.faults));
    if (read.ok) good = filled;
    if (read.ok) setPlan(cells, read.value, filled.units);
    setView(cells, controls, filled.settings);
    changed(form());
  }
  function change(values: Settings) {
    refused = Object.fromEntries(Object.entries(refused).filter(([field]) => !(field in values)));
    filled = { ...filled, settings: { ...filled.settings, ...values } };
    update();
  }
  function refuse(field: string, message: string) {
    refused = { ...refused, [field]: message };
    changed(form());
  }
  function fill(next: Filled) {
    refused = {};
    filled = { units: next.units, settings: { ...filled.settings, ...next.settings } };
    update();
  }
  const atStart = readPlan(good, readRecord);
  if (atStart.ok) setPlan(cells, atStart.value, filled.units);
  update();
  return { form, change, refuse, fill };
}

const messagesByField = (faults: readonly Fault[]): [string, string][] =>
  rollups(
    faults,
    (group) => group.map(({ message }) => message).join("; "),
    ({ path }) => fieldOf(path),
  );

/** Where a fault is shown: one that concerns a whole group, or a place in a list, stands at the choice that heads it. */
function fieldOf(path: string): string {
  const list = PLAN_INPUTS.find((input) => input.row.kind === "list" && path.startsWith(input.path));
  if (list) return list.row.way?.path ?? list.when.at(-1)?.path ?? path;
  const heads = [`${path}.kind`, `${path}.shape`];
  return PLAN_INPUTS.find((input) => heads.includes(input.path))?.path ?? path;
}

export function setPlan(cells: LiveCells, plan: Plan, units: UnitSystem) {
  cells.set(sources.plan, plan);
  cells.set(sources.units, units);
}

/** Sets the values that belong to one notebook alone; those left out stand at their start. */
export function setView(cells: LiveCells, controls: Control[], settings: Settings) {
  for (const control of controls) {
    const value = settings[control.field] ?? control.initial;
    if (control.kind === "number" && control.cell) cells.set(control.cell, Number(value));
    if (control.kind === "choice" && control.cell) cells.set(control.cell, String(value));
  }
}

const initialView = (controls: Control[]): Settings =>
  Object.fromEntries(controls.flatMap(({ field, initial }) => (initial === undefined ? [] : [[field, initial]])));
