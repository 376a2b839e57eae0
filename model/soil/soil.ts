/**
 * What the flow equation needs to know of a soil. Every soil type (van Genuchten, Gardner, Haverkamp) gives these
 * functions of the pressure head `h` (cm, negative when unsaturated); conductivities are in cm/day.
 *
 * For `h >= 0` the soil is saturated: `theta = thetaS`, `K = Ks`, `dThetaDh = dKDh = 0`.
 */
export interface Soil {
  readonly thetaR: number;
  readonly thetaS: number;
  readonly Ks: number;
  /** Water content, cm³/cm³. */
  theta(h: number): number;
  /** Capacity C = dθ/dh, 1/cm. */
  dThetaDh(h: number): number;
  /** Conductivity, cm/day. */
  K(h: number): number;
  /** dK/dh, 1/day. */
  dKDh(h: number): number;
  /** Pressure head at a water content; the inverse of `theta` on (thetaR, thetaS), and 0 at thetaS. */
  hAtTheta(theta: number): number;
  /** Kirchhoff potential φ(h) = ∫ K dh from −∞ to h, cm²/day. */
  phi(h: number): number;
}
