import { bothSystems, fromModel, type Quantity, suctionKPa, type Unit, type UnitSystem, unitOf } from "./units.ts";

/**
 * A quantity in words, rounded to what a gardener can use. `value` is in the model's unit: cm for "length" and
 * "distance", L for "volume", L/day for "flow", cm/day for "conductivity", positive cm of water for "suction", °C for
 * "temperature", mm for "rain" and "bore", cm² for "area", L/min for "hose flow", L/h for "emitter flow",
 * m/s for "wind".
 */
export function format(value: number, quantity: Quantity, system: UnitSystem): string {
  const unit = unitOf(quantity, system);
  return `${rounded(fromModel(value, quantity, system), unit)} ${unit}`;
}

/** In the person's own unit first, the other in brackets: "8 in (20 cm)"; once only where both are the same. */
export function formatBoth(value: number, quantity: Quantity, system: UnitSystem): string {
  const [own, other] = bothSystems(system);
  const [first, second] = [format(value, quantity, own), format(value, quantity, other)];
  return first === second ? first : `${first} (${second})`;
}

/** The suction of a pressure head (cm, negative when unsaturated), as positive kPa: "33 kPa". */
export function formatSuction(h: number): string {
  return `${rounded(suctionKPa(h), "kPa")} kPa`;
}

/**
 * A value in one unit, as text without trailing zeros: two figures below 1, one decimal below 10, whole numbers above;
 * inches from 5 up in halves.
 */
export function rounded(value: number, unit: Unit): string {
  const size = Math.abs(value);
  if (unit === "in" && size >= 5) return String(Math.round(2 * value) / 2);
  if (size < 1) return String(Number(value.toPrecision(2)));
  return size < 10 ? String(Number(value.toFixed(1))) : String(Math.round(value));
}
