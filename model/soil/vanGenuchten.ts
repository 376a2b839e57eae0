import type { Soil } from "./soil.ts";

/** Retention and conductivity parameters; alpha in 1/cm, Ks in cm/day, the others without unit. */
export interface VanGenuchtenParameters {
  thetaR: number;
  thetaS: number;
  alpha: number;
  n: number;
  Ks: number;
  l: number;
}
