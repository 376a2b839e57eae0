/** Amounts of water, roofs and years in words. */
import { bothSystems, fromModel, rounded, type UnitSystem, unitOf } from "../../model/public/units.ts";

/** "1700 US gal (6400 L)", in two figures: the calculation is no more exact. */
export function litresWords(litres: number, units: UnitSystem): string {
  const [own, other] = bothSystems(units).map((system) => twoFigures(fromModel(litres, "volume", system), system));
  return `${own} (${other})`;
}

function twoFigures(value: number, system: UnitSystem): string {
  return `${value < 10 ? rounded(value, "L") : Number(value.toPrecision(2))} ${unitOf("volume", system)}`;
}

const COUNTED = ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** "nine of ten years", of a share of so many years. */
export function yearsWords(share: number, count: number): string {
  if (share === 1) return `all of ${count} years`;
  if (share === 0) return `none of ${count} years`;
  const tenths = Math.round(10 * share);
  return tenths === 10 || tenths === 0 ? `${Math.round(share * count)} of ${count} years` : shareWords(tenths / 10);
}

/** Of a share in tenths, or 0.95. */
export const shareWords = (share: number): string =>
  share === 0.95 ? "19 of 20 years" : `${COUNTED[Math.round(10 * share)]} of ten years`;
