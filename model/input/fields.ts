import { z } from "zod";
import { fromModel, type Quantity, type UnitSystem, unitOf } from "../units/units.ts";

/** Limits of a number; at most one lower and one upper. */
export interface Range {
  min?: number;
  /** Lower limit that is itself not allowed. */
  above?: number;
  max?: number;
  /** Upper limit that is itself not allowed. */
  below?: number;
}

declare module "zod" {
  interface GlobalMeta {
    /** Shown behind the value. */
    unit?: string;
  }
}

/** A number that knows its name in plain words, its unit and, as its description, what it may be. */
export function numberField(title: string, range: Range, unit = ""): z.ZodNumber {
  let field = z.number();
  if (range.min !== undefined) field = field.min(range.min);
  if (range.above !== undefined) field = field.gt(range.above);
  if (range.max !== undefined) field = field.max(range.max);
  if (range.below !== undefined) field = field.lt(range.below);
  return field.meta({ title, description: `${rangeWords(range)} ${unit}`.trim(), ...(unit && { unit }) });
}

/** A number in a person's own unit; `range` is in the model's and rounded to three figures in the person's. */
export function quantityField(title: string, quantity: Quantity, system: UnitSystem, range: Range): z.ZodNumber {
  const limits = Object.entries(range).map(([side, limit]) => [
    side,
    Number(fromModel(limit, quantity, system).toPrecision(3)),
  ]);
  return numberField(title, Object.fromEntries(limits), unitOf(quantity, system));
}

function rangeWords({ min, above, max, below }: Range): string {
  if (min !== undefined && max !== undefined) return `from ${min} to ${max}`;
  const words = [
    above !== undefined && `greater than ${above}`,
    min !== undefined && `at least ${min}`,
    max !== undefined && `at most ${max}`,
    below !== undefined && `less than ${below}`,
  ];
  return words.filter(Boolean).join(" and ");
}
