/** What a number measures: a quantity with units of both systems, or something that has one unit for all. */
import { fromModel, type Quantity, toModel, type UnitSystem, unitOf } from "./units.ts";

export type Measure = Quantity | PlainUnit;

const PLAIN_UNITS = ["days", "hours", "minutes", "%", "points", "degrees", "kPa", "cm/day", "1/cm", ""] as const;

/** Written as it stands behind the number. */
export type PlainUnit = (typeof PLAIN_UNITS)[number];

export const isPlain = (measure: Measure): measure is PlainUnit => PLAIN_UNITS.some((unit) => unit === measure);

/** The unit in which a person of a unit system reads a measure. */
export const unitName = (measure: Measure, units: UnitSystem): string =>
  isPlain(measure) ? measure : unitOf(measure, units);

/** From the model's unit to that of a person. */
export const toPerson = (value: number, measure: Measure, units: UnitSystem): number =>
  isPlain(measure) ? value : fromModel(value, measure, units);

/** From a person's unit to the model's: the inverse of `toPerson`. */
export const fromPerson = (value: number, measure: Measure, units: UnitSystem): number =>
  isPlain(measure) ? value : toModel(value, measure, units);
