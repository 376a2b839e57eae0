import { kirchhoffPotential } from "../soil/quadrature.ts";
import type { Soil } from "../soil/soil.ts";

/** Ks in cm/day, water contents in cm³/cm³; a, b, A and B are fitted with |h| in cm. */
export interface HaverkampParameters {
  thetaR: number;
  thetaS: number;
  /** θ falls with |h|^b, or with (ln|h|)^b from h = −1 cm on. */
  retention: { form: "power" | "logarithm"; a: number; b: number };
  Ks: number;
  A: number;
  B: number;
}

/** The suction measure y(|h|) on which θ depends through y^b, its slope and its inverse; y = 0 where θ = θs. */
const MEASURES = {
  power: { of: (suction: number) => suction, slope: (_: number) => 1, inverse: (y: number) => y },
  logarithm: {
    of: (suction: number) => Math.log(Math.max(suction, 1)),
    slope: (suction: number) => 1 / suction,
    inverse: Math.exp,
  },
};

/**
 * The two soils of Haverkamp et al. (1977, SSSAJ 41:285-294): Se = a / (a + y^b) with y = |h| (sand) or ln|h| (Yolo
 * light clay), and K = Ks A / (A + |h|^B).
 */
export function haverkamp({ thetaR, thetaS, retention, Ks, A, B }: HaverkampParameters): Soil {
  const { a, b } = retention;
  const range = thetaS - thetaR;
  const measure = MEASURES[retention.form];
  const y = (h: number) => measure.of(Math.max(0, -h));

  function dThetaDh(h: number): number {
    const yh = y(h);
    return yh === 0 ? 0 : (range * a * b * yh ** (b - 1) * measure.slope(-h)) / (a + yh ** b) ** 2;
  }

  function hAtTheta(theta: number): number {
    if (theta >= thetaS) return 0;
    return -measure.inverse(((a * (thetaS - theta)) / Math.max(0, theta - thetaR)) ** (1 / b));
  }

  const K = (h: number) => (h >= 0 ? Ks : (Ks * A) / (A + (-h) ** B));
  return {
    thetaR,
    thetaS,
    Ks,
    theta: (h) => (y(h) === 0 ? thetaS : Math.min(thetaS, thetaR + (range * a) / (a + y(h) ** b))),
    dThetaDh,
    K,
    dKDh: (h) => (h >= 0 ? 0 : (Ks * A * B * (-h) ** (B - 1)) / (A + (-h) ** B) ** 2),
    hAtTheta,
    phi: kirchhoffPotential(K),
  };
}
