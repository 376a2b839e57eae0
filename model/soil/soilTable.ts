import { integrateK } from "./quadrature.ts";
import type { Soil } from "./soil.ts";

/**
 * The soil functions of many cells at once, as functions of the unknown `u` that the flow solver works in:
 *
 *   u = θ               where drier than h*, the head of largest capacity dθ/dh
 *   u = θ* + C* (h − h*)  where wetter, saturation and positive heads included
 *
 * so that stored water is linear in u when dry, and head is linear in u when wet. θ(u) and φ(u) have continuous slopes
 * at h*. Newton's method in h itself overshoots in dry sand; in θ it cannot reach saturation.
 */
export interface SoilTable {
  readonly soil: Soil;
  /** u of a pressure head. */
  uAtHead(h: number): number;
  /** Pressure head of u. */
  headAt(u: number): number;
  /** φ (cm²/day) and K (cm/day) at a head, as the table has them. */
  atHead(h: number): { phi: number; K: number };
  /** Fills every array of `cells` from `cells.u`. */
  evaluate(cells: CellState): void;
}

/** Soil state by cell; the derivatives are with respect to `u`. */
export interface CellState {
  u: Float64Array;
  theta: Float64Array;
  dTheta: Float64Array;
  h: Float64Array;
  dH: Float64Array;
  phi: Float64Array;
  dPhi: Float64Array;
  K: Float64Array;
  dK: Float64Array;
}

export function cellState(count: number): CellState {
  const array = () => new Float64Array(count);
  return {
    u: array(),
    theta: array(),
    dTheta: array(),
    h: array(),
    dH: array(),
    phi: array(),
    dPhi: array(),
    K: array(),
    dK: array(),
  };
}

export interface TableOptions {
  /** Driest head of the table, cm. */
  driest?: number;
  /**
   * Between this head and 0 K is a straight line. For n < 2 the slope of K is infinite at h = 0, and for n near 1 K
   * still climbs from 0.12 Ks at −1 cm: there Newton's method needs a finite slope.
   */
  wetEnd?: number;
  dryNodes?: number;
  wetNodes?: number;
}

/**
 * Cubic Hermite table with exact slopes at its nodes. Dry branch: nodes evenly spaced in ln Se; wet branch: in ln|h|.
 * Each node holds the values and node-coordinate slopes of φ, K, and of h (dry) or θ (wet).
 */
export function soilTable(soil: Soil, options: TableOptions = {}): SoilTable {
  const { driest = -1e7, wetEnd = WET_END, dryNodes = 400, wetNodes = 400 } = options;
  const { thetaR, thetaS } = soil;
  const range = thetaS - thetaR;
  const hStar = headOfLargestCapacity(soil, wetEnd);
  const thetaStar = soil.theta(hStar);
  const cStar = hStar < 0 ? soil.dThetaDh(hStar) : soil.dThetaDh(wetEnd);

  const lnSeEnd = Math.log((thetaStar - thetaR) / range);
  const lnSeStart = Math.max(Math.log(Math.max(soil.theta(driest) - thetaR, Number.MIN_VALUE) / range), -30);
  const dryStep = (lnSeEnd - lnSeStart) / (dryNodes - 1);
  const dryHeads = nodeHeads(dryNodes, (k) => {
    const h = k === dryNodes - 1 ? hStar : soil.hAtTheta(thetaR + range * Math.exp(lnSeStart + k * dryStep));
    return Math.min(h, wetEnd);
  });
  const dry = hermiteNodes(soil, dryHeads, soil.phi(dryHeads[0]!), (h, theta) => ({
    dh: (theta - thetaR) / soil.dThetaDh(h),
    third: h,
    dThird: (theta - thetaR) / soil.dThetaDh(h),
    step: dryStep,
  }));
  const phiStar = dry[STRIDE * (dryNodes - 1)]!;

  const isWetBranch = hStar < wetEnd;
  const lnStart = Math.log(-hStar);
  const wetStep = isWetBranch ? (Math.log(-wetEnd) - lnStart) / (wetNodes - 1) : 0;
  const wet = isWetBranch
    ? hermiteNodes(
        soil,
        nodeHeads(wetNodes, (k) => -Math.exp(lnStart + k * wetStep)),
        phiStar,
        (h, theta) => ({ dh: h, third: theta, dThird: soil.dThetaDh(h) * h, step: wetStep }),
      )
    : new Float64Array(0);

  // The line from wetEnd to saturation: K straight, so φ quadratic; θ straight.
  const lineStart = isWetBranch ? wetEnd : hStar;
  const KLine = soil.K(Math.min(lineStart, wetEnd));
  const thetaLine = isWetBranch ? soil.theta(wetEnd) : thetaStar;
  const phiLine = isWetBranch ? wet[STRIDE * (wetNodes - 1)]! : phiStar;
  const KSlope = lineStart < 0 ? (soil.Ks - KLine) / -lineStart : 0;
  const thetaSlope = lineStart < 0 ? (thetaS - thetaLine) / -lineStart : 0;
  const phi0 = lineStart < 0 ? phiLine - (lineStart * (KLine + soil.Ks)) / 2 : phiLine;

  /** Writes θ, h, φ, K and their u-derivatives of one u at index i. */
  function evaluateAt(u: number, i: number, s: CellState): void {
    if (u < thetaStar) dryBranch(u, i, s);
    else {
      const h = hStar + (u - thetaStar) / cStar;
      s.h[i] = h;
      s.dH[i] = 1 / cStar;
      if (h < lineStart) wetBranch(h, i, s);
      else wetLine(h, i, s);
    }
  }

  function dryBranch(u: number, i: number, s: CellState): void {
    const excess = Math.max(u - thetaR, range * 1e-14);
    const x = Math.max((Math.log(excess / range) - lnSeStart) / dryStep, 0);
    const k = Math.min(x | 0, dryNodes - 2);
    const f = x - k;
    const scale = 1 / (dryStep * excess);
    const p = STRIDE * k;
    s.theta[i] = u;
    s.dTheta[i] = 1;
    s.phi[i] = hermite(dry, p, f);
    s.dPhi[i] = hermiteSlope(dry, p, f) * scale;
    s.K[i] = hermite(dry, p + 2, f);
    s.dK[i] = hermiteSlope(dry, p + 2, f) * scale;
    s.h[i] = hermite(dry, p + 4, f);
    s.dH[i] = hermiteSlope(dry, p + 4, f) * scale;
  }

  function wetBranch(h: number, i: number, s: CellState): void {
    const x = (Math.log(-h) - lnStart) / wetStep;
    const k = Math.min(Math.max(x | 0, 0), wetNodes - 2);
    const f = x - k;
    const scale = 1 / (wetStep * h * cStar);
    const p = STRIDE * k;
    s.phi[i] = hermite(wet, p, f);
    s.dPhi[i] = hermiteSlope(wet, p, f) * scale;
    s.K[i] = hermite(wet, p + 2, f);
    s.dK[i] = hermiteSlope(wet, p + 2, f) * scale;
    s.theta[i] = hermite(wet, p + 4, f);
    s.dTheta[i] = hermiteSlope(wet, p + 4, f) * scale;
  }

  function wetLine(h: number, i: number, s: CellState): void {
    const isUnsaturated = h < 0;
    const K = isUnsaturated ? soil.Ks + KSlope * h : soil.Ks;
    s.phi[i] = isUnsaturated ? phi0 + h * (soil.Ks + (KSlope * h) / 2) : phi0 + soil.Ks * h;
    s.dPhi[i] = K / cStar;
    s.K[i] = K;
    s.dK[i] = isUnsaturated ? KSlope / cStar : 0;
    s.theta[i] = isUnsaturated ? thetaS + thetaSlope * h : thetaS;
    s.dTheta[i] = isUnsaturated ? thetaSlope / cStar : 0;
  }

  const uAtHead = (h: number) => (h < hStar ? soil.theta(h) : thetaStar + cStar * (h - hStar));
  const one = cellState(1);
  function look(u: number): CellState {
    evaluateAt(u, 0, one);
    return one;
  }

  return {
    soil,
    uAtHead,
    headAt: (u) => look(u).h[0]!,
    atHead(h) {
      const { phi, K } = look(uAtHead(h));
      return { phi: phi[0]!, K: K[0]! };
    },
    evaluate(cells) {
      for (let i = 0; i < cells.u.length; i++) evaluateAt(cells.u[i]!, i, cells);
    },
  };
}

/** Value and slope of φ, K and a third quantity. */
const STRIDE = 6;
const WET_END = -0.1;

/** Largest dθ/dh between the driest useful head and `wetEnd`; 0 when the capacity still rises there. */
function headOfLargestCapacity(soil: Soil, wetEnd: number): number {
  const at = (y: number) => soil.dThetaDh(-Math.exp(y));
  const [wettest, driest] = [Math.log(-wetEnd), Math.log(1e5)];
  const steps = 400;
  let best = 0;
  for (let k = 1; k <= steps; k++) {
    const y = (j: number) => wettest + ((driest - wettest) * j) / steps;
    if (at(y(k)) > at(y(best))) best = k;
  }
  if (best === 0) return 0;
  return -Math.exp(wettest + ((driest - wettest) * best) / steps);
}

function nodeHeads(count: number, head: (k: number) => number): Float64Array {
  return Float64Array.from({ length: count }, (_, k) => head(k));
}

/** φ is summed node by node; dh is the change of head with the node coordinate (ln Se or ln|h|). */
function hermiteNodes(
  soil: Soil,
  heads: Float64Array,
  phiStart: number,
  slopes: (h: number, theta: number) => { dh: number; third: number; dThird: number; step: number },
): Float64Array {
  const nodes = new Float64Array(STRIDE * heads.length);
  let phi = phiStart;
  heads.forEach((h, k) => {
    if (k > 0 && h > heads[k - 1]!) phi += integrateK(soil.K, heads[k - 1]!, h);
    const { dh, third, dThird, step } = slopes(h, soil.theta(h));
    nodes.set([phi, soil.K(h) * dh * step, soil.K(h), soil.dKDh(h) * dh * step, third, dThird * step], STRIDE * k);
  });
  return nodes;
}

/** Cubic Hermite between node p and the next, f from 0 to 1. */
function hermite(nodes: Float64Array, p: number, f: number): number {
  const y0 = nodes[p]!;
  const m0 = nodes[p + 1]!;
  const y1 = nodes[p + STRIDE]!;
  const m1 = nodes[p + STRIDE + 1]!;
  const c2 = 3 * (y1 - y0) - 2 * m0 - m1;
  const c3 = 2 * (y0 - y1) + m0 + m1;
  return y0 + f * (m0 + f * (c2 + f * c3));
}

function hermiteSlope(nodes: Float64Array, p: number, f: number): number {
  const y0 = nodes[p]!;
  const m0 = nodes[p + 1]!;
  const y1 = nodes[p + STRIDE]!;
  const m1 = nodes[p + STRIDE + 1]!;
  const c2 = 3 * (y1 - y0) - 2 * m0 - m1;
  const c3 = 2 * (y0 - y1) + m0 + m1;
  return m0 + f * (2 * c2 + 3 * f * c3);
}
