import type { Soil } from "../soil/soil.ts";

/** alpha in 1/cm, Ks in cm/day, water contents in cm³/cm³. */
export interface GardnerParameters {
  thetaR: number;
  thetaS: number;
  alpha: number;
  Ks: number;
}

/**
 * The exponential soil of Gardner (1958, Soil Sci. 85:228-232), K = Ks e^(αh), with Se = e^(αh): K is linear in θ, the
 * diffusivity K/C is constant, and φ = K/α, so that the steady flow equation is linear in φ.
 */
export function gardner({ thetaR, thetaS, alpha, Ks }: GardnerParameters): Soil {
  const range = thetaS - thetaR;
  const Se = (h: number) => (h >= 0 ? 1 : Math.exp(alpha * h));
  const slope = (h: number) => (h >= 0 ? 0 : alpha * Math.exp(alpha * h));
  return {
    thetaR,
    thetaS,
    Ks,
    theta: (h) => (h >= 0 ? thetaS : Math.min(thetaS, thetaR + range * Se(h))),
    dThetaDh: (h) => range * slope(h),
    K: (h) => Ks * Se(h),
    dKDh: (h) => Ks * slope(h),
    hAtTheta: (theta) => (theta >= thetaS ? 0 : Math.log(Math.max(0, (theta - thetaR) / range)) / alpha),
    phi: (h) => (Ks * Se(h)) / alpha + Ks * Math.max(0, h),
  };
}
