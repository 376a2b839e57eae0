/** What a number field shows and accepts: pure, so that the terminal and the page say the same. */
import {
  bothSystems,
  fromPerson,
  type Measure,
  toPerson,
  type UnitSystem,
  unitName,
} from "../../model/public/units.ts";
import type { NumberControl } from "./controlTypes.ts";

export type Reading = { ok: true; value: number } | { ok: false; message: string };

/** Figures shown in a box; a typed value within half of the last one of a limit counts as the limit. */
const figures = 4;

/** A value in the person's unit, without the unit. */
export const numberText = (value: number, measure: Measure, units: UnitSystem): string =>
  String(Number(toPerson(value, measure, units).toPrecision(figures)));

export const numberWithUnit = (value: number, measure: Measure, units: UnitSystem): string =>
  `${numberText(value, measure, units)} ${unitName(measure, units)}`.trim();

/** Reads typed text; the value comes in the model's unit. */
export function readNumber(text: string, control: NumberControl, units: UnitSystem): Reading {
  const { measure, min, max } = control;
  const typed = text.trim() === "" ? Number.NaN : Number(text);
  const value = fromPerson(typed, measure, units);
  if (value >= min - rounding(min) && value <= max + rounding(max)) return { ok: true, value: clamp(value, min, max) };
  return { ok: false, message: refusal(text, control, units) };
}

const rounding = (limit: number) => Math.abs(limit) * 0.5 * 10 ** (1 - figures);

const clamp = (value: number, min: number, max: number) => Math.min(max, Math.max(min, value));

function refusal(text: string, control: NumberControl, units: UnitSystem): string {
  const given = text.trim() === "" ? "empty" : `"${text.trim()}"`;
  return `${control.label} is ${given}; it must be a number ${rangeText(control, units)}.`;
}

/** "from 2 to 30 cm (0.7874 to 11.81 in)": the person's unit first. */
export function rangeText({ measure, min, max }: NumberControl, units: UnitSystem): string {
  const [own, second] = bothSystems(units).map(
    (system) => `${numberText(min, measure, system)} to ${numberWithUnit(max, measure, system)}`,
  );
  return own === second ? `from ${own}` : `from ${own} (${second})`;
}

/** Ends and step of the slider in the person's unit: the whole steps that lie inside the allowed range. */
export function sliderRange({ measure, min, max, step }: NumberControl, units: UnitSystem) {
  const size = step[units];
  const steps = (value: number) => Number((toPerson(value, measure, units) / size).toFixed(6));
  return { min: tidy(Math.ceil(steps(min)) * size), max: tidy(Math.floor(steps(max)) * size), step: size };
}

/** Without the rounding of binary fractions, which a slider would show as an end that cannot be reached. */
const tidy = (value: number) => Number(value.toPrecision(12));
