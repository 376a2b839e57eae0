/** The controls of the plan's inputs, and what a form starts from: both follow from the inputs' rows. */
import {
  type ChoiceRow,
  type Condition,
  type Input,
  type NumberRow,
  PLAN_INPUTS,
  type Settings,
  type Way,
} from "../../model/public/plan.ts";
import { sentenceCase } from "../words/words.ts";
import type { ChoiceControl, Control, NumberControl, Option } from "./controlTypes.ts";

const holds = (when: readonly Condition[], settings: Settings): boolean =>
  when.every(({ path, values }) => values.includes(String(settings[path])));

/** Whether the settings give the plan this input. */
export const applies = ({ when, row: { way } }: Input, settings: Settings): boolean =>
  holds(when, settings) && (way === undefined || settings[way.path] === way.given.value);

export const controlAt = (path: string): Control | undefined => CONTROLS.get(path);

/** By path; an Error where there is none. */
export function controls(...paths: string[]): Control[] {
  return paths.map((path) => {
    const control = controlAt(path);
    if (!control) throw new Error(`${path} has no control`);
    return control;
  });
}

function controlOf(input: Input): Control[] {
  const { path: field, row, when } = input;
  if (row.noControl !== undefined) return [];
  const { help, way } = row;
  const common = {
    field,
    label: row.label ?? sentenceCase(row.title),
    ...(help !== undefined && { help: typeof help === "string" ? () => help : help }),
    ...((when.length > 0 || way) && { shownWhen: (settings: Settings) => applies(input, settings) }),
  };
  switch (row.kind) {
    case "number":
      return [numberControl(row, common)];
    case "choice":
      return [choiceControl(row, common)];
    case "flag":
      return [{ kind: "choice", style: "radio", options: YES_OR_NO, ...common }];
    case "text":
      return [{ kind: "text", ...common }];
    default:
      return [];
  }
}

type CommonOf = Pick<Control, "field" | "label" | "help" | "shownWhen">;

function numberControl({ measure, range, slider, step = 1 }: NumberRow, common: CommonOf): NumberControl {
  const { min = Number.NaN, max = Number.NaN } = slider ? { min: slider[0], max: slider[1] } : range;
  const [metric, us] = typeof step === "number" ? [step, step] : step;
  return { kind: "number", measure, min, max, step: { metric, us }, ...common };
}

function choiceControl({ values, labels, style = "select", fills }: ChoiceRow, common: CommonOf): ChoiceControl {
  const options = labels
    ? Object.entries(labels).map(([value, label]) => ({ value, label }))
    : values.map((value) => ({ value, label: value }));
  return { kind: "choice", style, options, ...(fills && { fills }), ...common };
}

/** Settings of what is either so or not. */
export const [YES, NO] = ["yes", "no"] as const;
const YES_OR_NO: Option[] = [YES, NO].map((value) => ({ value, label: value }));

/** The choice between giving an input and leaving it out; a list that holds nothing cannot be given. */
function wayControl({ path, row, when }: Input, { path: field, label, leftOut, given }: Way): ChoiceControl {
  const isList = row.kind === "list";
  return {
    ...{ kind: "choice", style: "radio", field, label, options: [leftOut, given] },
    ...((when.length > 0 || isList) && {
      shownWhen: (settings: Settings) => holds(when, settings) && !(isList && settings[path] === "[]"),
    }),
  };
}

/** An input's own control has its path before a way of the same path. */
const CONTROLS: ReadonlyMap<string, Control> = new Map(
  [
    ...PLAN_INPUTS.flatMap((input) => (input.row.way ? [wayControl(input, input.row.way)] : [])),
    ...PLAN_INPUTS.flatMap(controlOf),
  ].map((control) => [control.field, control]),
);

/** Where a form starts before anything is known of the bed, in the model's units. Not a bed of anyone's. */
export const emptyForm: Settings = Object.fromEntries([
  ...PLAN_INPUTS.flatMap(({ row: { way } }) => (way ? [[way.path, way.leftOut.value]] : [])),
  ...PLAN_INPUTS.flatMap(({ path, row }) => {
    const start = startOf(row);
    return start === undefined ? [] : [[path, start]];
  }),
]);

function startOf(row: Input["row"]): number | string | undefined {
  switch (row.kind) {
    case "number":
    case "choice":
      return row.start ?? (row.default as number | string | undefined);
    case "flag":
      return row.default ? YES : NO;
    case "list":
      return row.start && JSON.stringify(row.start);
    case "text":
      return row.start;
    case "fixed":
      return undefined;
  }
}
