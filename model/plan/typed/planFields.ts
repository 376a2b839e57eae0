/** Fields of the plan that occur in several of its parts. */
import { z } from "zod";
import { numberField, quantityField, type Range } from "../../input/fields.ts";
import { fromModel, type Quantity, type UnitSystem } from "../../units/units.ts";

export const text = (title: string) => z.string().max(10_000).meta({ title }).default("");
export const days = (title: string, min: number, max: number) => numberField(title, { min, max }, "days");
export const suction = (title: string, min: number, max: number) => numberField(title, { min, max }, "kPa");
export const percent = (title: string) => numberField(title, { min: 0, max: 100 }, "%");

/** `range` and `value` in the model's unit. */
export function withDefault(title: string, quantity: Quantity, units: UnitSystem, range: Range, value: number) {
  return quantityField(title, quantity, units, range).default(fromModel(value, quantity, units));
}

/** A soil's own parameters, cm and day in both unit systems; `of` tells one soil of a plan from the other. */
export const soilParameters = (of = "") => ({
  thetaR: numberField(`residual water content thetaR${of}`, { min: 0, below: 1 }),
  thetaS: numberField(`saturated water content thetaS${of}`, { above: 0, max: 1 }),
  alpha: numberField(`alpha${of}`, { min: 1e-4, max: 1 }, "1/cm"),
  n: numberField(`n${of}`, { min: 1.05, max: 4 }),
  Ks: numberField(`saturated conductivity Ks${of}`, { min: 1e-4, max: 1e5 }, "cm/day"),
  l: numberField(`l${of}`, { min: -20, max: 20 }).default(0.5),
});
