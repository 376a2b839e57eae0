import { kirchhoffPotential } from "./quadrature.ts";
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

/**
 * A soil after van Genuchten (1980, SSSAJ 44:892-898) with the conductivity of Mualem (1976, Water Resour. Res.
 * 12:513-522), m = 1 − 1/n. Nothing is rounded off near saturation: for n < 2 the slope of K is infinite at h = 0.
 *
 * With x = |αh|ⁿ: Se = (1 + x)^−m (eq. 3, 21), K = Ks Se^l F², F = 1 − (1 − Se^(1/m))^m = 1 − (1 + 1/x)^−m (eq. 8).
 */
export function vanGenuchten({ thetaR, thetaS, alpha, n, Ks, l }: VanGenuchtenParameters): Soil {
  const m = 1 - 1 / n;
  const range = thetaS - thetaR;
  const x = (h: number) => (-alpha * h) ** n;

  // The smaller of the two, since the sum can round to just above thetaS.
  const theta = (h: number) => (h >= 0 ? thetaS : Math.min(thetaS, thetaR + range * Math.exp(-m * Math.log1p(x(h)))));

  // dSe/dh = (n − 1) Se x / ((1 + x) |h|)
  function dThetaDh(h: number): number {
    if (h >= 0) return 0;
    const xh = x(h);
    return (range * (n - 1) * Math.exp(-m * Math.log1p(xh))) / ((1 + 1 / xh) * -h);
  }

  function K(h: number): number {
    if (h >= 0) return Ks;
    const xh = x(h);
    const F = -Math.expm1(-m * Math.log1p(1 / xh));
    return Ks * Math.exp(-m * l * Math.log1p(xh)) * F * F;
  }

  // dK/dh = K (n − 1)/|h| [l x/(1 + x) + 2 (1 − F) / (F (1 + x))]
  function dKDh(h: number): number {
    if (h >= 0) return 0;
    const xh = x(h);
    const lnRest = -m * Math.log1p(1 / xh);
    const F = -Math.expm1(lnRest);
    const K = Ks * Math.exp(-m * l * Math.log1p(xh)) * F * F;
    return ((K * (n - 1)) / -h) * (l / (1 + 1 / xh) + (2 * Math.exp(lnRest)) / (F * (1 + xh)));
  }

  // Se^(−1/m) − 1 = x, with ln Se taken from whichever end of the range is nearer.
  function hAtTheta(value: number): number {
    if (value >= thetaS) return 0;
    const Se = (value - thetaR) / range;
    const lnSe = Se > 0.5 ? Math.log1p((value - thetaS) / range) : Math.log(Math.max(Se, 0));
    return -(Math.expm1(-lnSe / m) ** (1 / n)) / alpha;
  }

  return { thetaR, thetaS, Ks, theta, dThetaDh, K, dKDh, hAtTheta, phi: kirchhoffPotential(K) };
}
