/** What a number field measures: a quantity with units of both systems, or something that has one unit for all. */
import { fromModel, type Quantity, toModel, type UnitSystem, unitOf } from "../../model/public/units.ts";

export type Measure = Quantity | PlainUnit;

/** Written as it stands behind the number. */
export type PlainUnit = "days" | "hours" | "minutes" | "%" | "points" | "degrees" | "kPa" | "cm/day" | "1/cm" | "";

const plainUnits: readonly string[] = [
  "days",
  "hours",
  "minutes",
  "%",
  "points",
  "degrees",
  "kPa",
  "cm/day",
  "1/cm",
  "",
] satisfies PlainUnit[];

const isPlain = (measure: Measure): measure is PlainUnit => plainUnits.includes(measure);

export const unitName = (measure: Measure, units: UnitSystem): string =>
  isPlain(measure) ? measure : unitOf(measure, units);

export const toPerson = (value: number, measure: Measure, units: UnitSystem): number =>
  isPlain(measure) ? value : fromModel(value, measure, units);

export const fromPerson = (value: number, measure: Measure, units: UnitSystem): number =>
  isPlain(measure) ? value : toModel(value, measure, units);
