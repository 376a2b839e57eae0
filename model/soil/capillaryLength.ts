import type { Soil } from "./soil.ts";

/**
 * Macroscopic capillary length λc, cm: how far a soil's capillarity carries water before its weight takes over, between
 * a wet and a dry pressure head (cm, `wet` above `dry`),
 *
 *   λc = [φ(wet) − φ(dry)] / [K(wet) − K(dry)]
 *
 * White & Sully (1987, Water Resour. Res. 23:1514-1522, from memory). In a Gardner soil, K = Ks e^(αh), it is 1/α at
 * any wet and dry head up to saturation.
 */
export function capillaryLength(soil: Soil, wet: number, dry: number): number {
  return (soil.phi(wet) - soil.phi(dry)) / (soil.K(wet) - soil.K(dry));
}

/**
 * Weight against capillarity around a cavity of radius `r0` (cm): s = α r0 / 2 = r0 / (2 λc), without unit. Well below 1
 * water spreads evenly, well above 1 it sinks. Philip (1968, Water Resour. Res. 4:1039-1047; 1984, Soil Sci. Soc. Am. J.
 * 48:724-729, both from memory).
 */
export function gravityNumber(r0: number, lambda: number): number {
  return r0 / (2 * lambda);
}
