import { pairs, sum } from "d3-array";
import { frustumVolume } from "../../model/pot/frustum.ts";
import type { OutlinePoint } from "../../model/pot/pot.ts";

/** Volume inside the outer surface from the rim to the base, cm³. */
export function outerVolume(outline: readonly OutlinePoint[]): number {
  return sum(pairs(outline), ([a, b]) => frustumVolume(a.r, b.r, b.d - a.d));
}
