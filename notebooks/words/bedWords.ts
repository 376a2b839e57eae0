/** A bed in words. */
import { type BedOutline, bedBounds } from "../../model/public/plan.ts";
import { fromModel, rounded, type UnitSystem, unitOf } from "../../model/public/units.ts";

/** "4 × 16 ft"; a bed of any shape by the box around it. */
export function bedWords(outline: BedOutline, units: UnitSystem): string {
  const number = (cm: number) => rounded(fromModel(cm, "distance", units), unitOf("distance", units));
  const unit = unitOf("distance", units);
  if (outline.shape === "circle") return `round ${number(outline.diameter)} ${unit}`;
  const { x0, x1, y0, y1 } = bedBounds(outline);
  const sides = [x1 - x0, y1 - y0].sort((a, b) => a - b).map(number);
  return `${sides.join(" × ")} ${unit}`;
}
