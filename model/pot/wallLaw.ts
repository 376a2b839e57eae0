import { sum } from "d3-array";
import { CM3_PER_LITRE } from "../units/factors.ts";
import { lengthOf, type Stretch, stretchesBetween } from "./outerSurface.ts";
import type { Pot } from "./pot.ts";

/**
 * Flux through the wall, cm/day, positive into the soil, at a point of the outer surface at depth `d` where the
 * pressure head is `hf`.
 *
 * Darcy's law across a saturated wall without storage. The water inside is at rest, so its total head is −dw
 * everywhere; that of the outer face is hf − d. Over the thickness w, whichever way the wall faces,
 *
 *     q = Kw (−dw − (hf − d)) / w = Kw (d − dw − hf) / w
 *
 * On an upright side the inner face is as deep as the outer one, pIn = d − dw and q = Kw (pIn − hf) / w. On a level
 * base the inner face is w higher, pIn = d − w − dw and q = Kw ((pIn − hf) / w + 1), the 1 being gravity.
 *
 * Nothing passes above the water line, nor once the pot is empty. A face wetter than the water inside, hf > d − dw,
 * gives water back.
 */
export function wallFlux(pot: Pot, d: number, dw: number, hf: number): number {
  return d <= dw || dw >= pot.emptyDepth ? 0 : (pot.wallConductivity * (d - dw - hf)) / pot.wallThickness;
}

/**
 * Water that the wall passes with its level at `dw` and the same suction (cm, positive) at every wet point outside,
 * litres a day: `wallFlux` summed over the outer surface below the water line. At 0 suction, what it loses sunk in
 * soaked soil.
 */
export function releaseIntoSuction(pot: Pot, dw: number, suction: number): number {
  if (dw >= pot.emptyDepth) return 0;
  const wet = stretchesBetween(pot.outline, dw, Number.POSITIVE_INFINITY);
  const headTimesArea = sum(wet, (stretch) => integralOfHead(stretch, dw - suction));
  return (pot.wallConductivity * headTimesArea) / pot.wallThickness / CM3_PER_LITRE;
}

/** ∫ (d − d0) dA over a ring whose r and d both change linearly along it. */
function integralOfHead([a, b]: Stretch, d0: number): number {
  const [ha, hb] = [a.d - d0, b.d - d0];
  return (Math.PI / 3) * lengthOf(a, b) * (a.r * (2 * ha + hb) + b.r * (ha + 2 * hb));
}
