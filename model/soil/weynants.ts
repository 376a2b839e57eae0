import type { VanGenuchtenParameters } from "./vanGenuchten.ts";

/** Sand, clay and organic carbon by weight, %; bulk density in g/cm³. */
export interface WeynantsInput {
  sand: number;
  clay: number;
  organicCarbon: number;
  bulkDensity: number;
}

/**
 * Retention and conductivity from texture (Weynants, Vereecken & Javaux 2009, Vadose Zone J. 8:86-95, with the
 * correction of Weihermüller et al. 2017; the coefficients as an open listing has them). `Ks` is the conductivity of the
 * soil between its large pores, fitted at suctions above 6 cm: it says little of soil that is nearly saturated.
 */
export function weynants({ sand, clay, organicCarbon, bulkDensity }: WeynantsInput): VanGenuchtenParameters {
  const lnAlpha = -4.3003420026 - 0.009685121 * clay + 0.0137763939 * sand - 0.0992391618 * organicCarbon;
  const lnN1 = -1.084606919 - 0.0235654376 * clay - 0.0085043044 * sand + 0.0001369944 * sand ** 2;
  const lnK0 = 1.9581584626 + 0.0308449531 * sand - 0.614161013 * bulkDensity - 0.15655571 * organicCarbon;
  return {
    thetaR: 0,
    thetaS: 0.6355365504 + 0.0012807613 * clay - 0.1630910071 * bulkDensity,
    alpha: Math.exp(lnAlpha),
    n: 1 + Math.exp(lnN1),
    Ks: Math.exp(lnK0),
    l: -1.8641969563 - 0.1317363417 * clay + 0.0067082506 * sand,
  };
}
