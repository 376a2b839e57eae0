import { range, sum } from "d3-array";

/**
 * One mode of Tracy's solutions (2006, Water Resour. Res. 42:W08503, form recalled: reference-data/checks/flow-tracy.json)
 * in a Gardner soil, K = Ks e^(αh) and θ linear in it: with e^(αh) = e^(α hr) + A(x, y) w(z, t) and ∇²A = −κ² A,
 *
 *   w = e^(α(D−z)/2) [ sinh bz / sinh bD + 2/(Dc) Σ (−1)^k (l_k / g_k) sin(l_k z) e^(−g_k t) ],
 *   b² = α²/4 + κ²,  c = α (θs − θr) / Ks,  l_k = kπ/D,  g_k = (b² + l_k²)/c,
 *
 * which is 1 at the top and 0 at the bottom and at the start. z is the height above the bottom, D that of the top. His
 * square has A = sin(πx/a); any other A with a wave number of its own is as good.
 */
export function tracyMode(
  soil: { alpha: number; thetaR: number; thetaS: number; Ks: number },
  D: number,
  kappa: number,
) {
  const { alpha, thetaR, thetaS, Ks } = soil;
  const b = Math.hypot(alpha / 2, kappa);
  const c = (alpha * (thetaS - thetaR)) / Ks;
  const terms = range(1, 2000).map((k) => {
    const l = (k * Math.PI) / D;
    return { l, g: (b * b + l * l) / c, sign: k % 2 === 0 ? 1 : -1 };
  });
  return (z: number, t: number): number => {
    const inTime = sum(terms, ({ l, g, sign }) => ((sign * l) / g) * Math.sin(l * z) * Math.exp(-g * t));
    return Math.exp((alpha * (D - z)) / 2) * (Math.sinh(b * z) / Math.sinh(b * D) + (2 / (D * c)) * inTime);
  };
}
