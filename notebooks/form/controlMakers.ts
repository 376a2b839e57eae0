/** How the controls of the plan are made. */
import type { ChoiceControl, NumberControl, Option, Settings } from "./controlTypes.ts";

type Shown = (settings: Settings) => boolean;

export const when =
  (field: string, ...values: string[]): Shown =>
  (settings) =>
    values.includes(String(settings[field]));

export const named = (names: readonly string[]): Option[] => names.map((name) => ({ value: name, label: name }));

export function number(
  field: string,
  label: string,
  rest: Omit<NumberControl, "kind" | "field" | "label">,
): NumberControl {
  return { kind: "number", field, label, ...rest };
}

export function choice(
  field: string,
  label: string,
  rest: Omit<ChoiceControl, "kind" | "field" | "label">,
): ChoiceControl {
  return { kind: "choice", field, label, ...rest };
}

/** A step that is the same in both unit systems. */
export const fine = (step: number) => ({ metric: step, us: step });
