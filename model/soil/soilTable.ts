import { maxIndex } from "d3-array";
import { entry, first } from "../input/lists.ts";
import { type HermiteNode, type HermiteTable, hermiteTable } from "./hermiteTable.ts";
import { integrateKBetween, type KAtHead } from "./quadrature.ts";
import type { Soil } from "./soil.ts";

// In the loops over cells `!` stands in place of a check, which would cost time.

/**
 * The soil functions of many cells at once, as functions of the unknown `u` that the flow solver works in:
 *
 *   u = θ                  where drier than h*, the head of largest capacity C = dθ/dh
 *   u = θ* + C* (h − h*)   where wetter, saturation and positive heads included
 *
 * so that stored water is linear in u when dry, and head when wet; θ(u) and φ(u) have continuous slopes at h*. Newton's
 * method in h overshoots in dry sand, in θ it cannot reach saturation, and in φ it stalls in clay that saturates.
 */
export interface SoilTable {
  readonly soil: Soil;
  /** u of a pressure head. */
  uAtHead(h: number): number;
  /** Pressure head of u. */
  headAt(u: number): number;
  /** Water content of u. */
  thetaAt(u: number): number;
  /** φ (cm²/day) and its slope K = dφ/dh (cm/day) at a head. */
  atHead(h: number): { phi: number; K: number };
  /** Fills every array of `cells` from `cells.u`, from one cell up to another; cells whose u is as before are left alone. */
  evaluate(cells: CellState, from?: number, to?: number): void;
}

/** Soil state by cell; the derivatives are with respect to `u`. K is dφ/dh of the table, so that the two belong together. */
export interface CellState {
  u: Float64Array;
  /** The u that the other arrays were filled from; not a number before the first time. */
  uFilled: Float64Array;
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
    uFilled: array().fill(Number.NaN),
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
   * Between this head (cm) and 0, K and θ are straight lines. For n < 2 the slope of K is infinite at h = 0, and for n
   * near 1 K still climbs from 0.12 Ks at −1 cm to Ks: Newton's method needs a finite slope. The line raises φ(0) by
   * 1.4 % in the class-mean clay, 0.02 % in loam, and changes nothing in soil that stays drier.
   */
  wetEnd?: number;
  /** Nodes of the dry branch. */
  nodes?: number;
}

const WET_END = -0.1;
const NODES = 600;
/** Distance of the wet branch's nodes in ln|h|, at most: that of the dry branch's, in most soils. */
const WET_SPACING = 0.02;
/** No drier than this share of the pore space, e^−30. */
const LEAST_LN_SE = -30;

/** Cubic Hermite tables with exact slopes at their nodes: see `dryTable` and `wetTable`. */
export function soilTable(soil: Soil, options: TableOptions = {}): SoilTable {
  const { driest = -1e7, wetEnd = WET_END, nodes = NODES } = options;
  const { thetaR, thetaS, Ks } = soil;
  const hStar = headOfLargestCapacity(soil, wetEnd);
  const thetaStar = soil.theta(hStar);
  const cStar = soil.dThetaDh(hStar);
  const least = (thetaS - thetaR) * Math.exp(LEAST_LN_SE);
  const dry = dryTable(soil, Math.max(soil.theta(driest) - thetaR, least), hStar, nodes);
  const wet = wetTable(soil, Math.min(hStar, 2 * wetEnd), wetEnd);
  const KSlope = (soil.K(wetEnd) - Ks) / wetEnd;
  const thetaSlope = (soil.theta(wetEnd) - thetaS) / wetEnd;
  const one = cellState(1);
  wetAt(wetEnd * (1 + 1e-12), 0, one);
  const phi0 = first(one.phi) - (wetEnd * (soil.K(wetEnd) + Ks)) / 2;

  function dryAt(u: number, i: number, s: CellState): void {
    const excess = Math.max(u - thetaR, least);
    s.theta[i] = u;
    s.dTheta[i] = 1;
    dry.read(Math.log(excess), 1 / excess, i, s.phi, s.dPhi, s.K, s.dK, s.h, s.dH);
    s.K[i] = s.dPhi[i]! / s.dH[i]!;
  }

  function wetAt(h: number, i: number, s: CellState): void {
    s.h[i] = h;
    s.dH[i] = 1 / cStar;
    if (h < wetEnd) {
      wet.read(Math.log(-h), 1 / (h * cStar), i, s.phi, s.dPhi, s.K, s.dK, s.theta, s.dTheta);
      s.K[i] = s.dPhi[i]! * cStar;
      return;
    }
    const below = Math.min(h, 0);
    s.K[i] = Ks + KSlope * below;
    s.dK[i] = h < 0 ? KSlope / cStar : 0;
    s.phi[i] = phi0 + Ks * h + (KSlope * below * below) / 2;
    s.dPhi[i] = s.K[i]! / cStar;
    s.theta[i] = thetaS + thetaSlope * below;
    s.dTheta[i] = h < 0 ? thetaSlope / cStar : 0;
  }

  const uAtHead = (h: number) => (h < hStar ? soil.theta(h) : thetaStar + cStar * (h - hStar));

  function evaluateAt(u: number, i: number, s: CellState): void {
    if (u < thetaStar) dryAt(u, i, s);
    else wetAt(hStar + (u - thetaStar) / cStar, i, s);
  }

  return {
    soil,
    uAtHead,
    headAt(u) {
      evaluateAt(u, 0, one);
      return first(one.h);
    },
    thetaAt(u) {
      evaluateAt(u, 0, one);
      return first(one.theta);
    },
    atHead(h) {
      evaluateAt(uAtHead(h), 0, one);
      return { phi: one.phi[0]!, K: one.K[0]! };
    },
    evaluate(cells, from = 0, to = cells.u.length) {
      const { u, uFilled } = cells;
      for (let i = from; i < to; i++) {
        const value = u[i]!;
        if (value === uFilled[i]) continue;
        uFilled[i] = value;
        evaluateAt(value, i, cells);
      }
    },
  };
}

/** Largest dθ/dh between the driest useful head and `wetEnd`; `wetEnd` when the capacity still rises there. */
function headOfLargestCapacity(soil: Soil, wetEnd: number): number {
  const [wettest, driest] = [Math.log(-wetEnd), Math.log(1e5)];
  const steps = 400;
  const headOf = (k: number) => -Math.exp(wettest + ((driest - wettest) * k) / steps);
  const capacities = Array.from({ length: steps + 1 }, (_, k) => soil.dThetaDh(headOf(k)));
  return headOf(maxIndex(capacities));
}

/** φ, K and θ against ln|h|, from `driest` to `wetEnd`. */
function wetTable(soil: Soil, driest: number, wetEnd: number): HermiteTable {
  const [first, last] = [Math.log(-driest), Math.log(-wetEnd)];
  const count = Math.ceil((first - last) / WET_SPACING) + 1;
  const spacing = (last - first) / (count - 1);
  const heads = Array.from({ length: count }, (_, k) => -Math.exp(first + k * spacing));
  return hermiteTable(
    first,
    spacing,
    tableNodes(soil, heads, ({ h, K, dK }, phi) => ({
      values: [phi, K, soil.theta(h)],
      slopes: [K * h, dK * h, soil.dThetaDh(h) * h],
    })),
  );
}

/** φ, K and h against ln(θ − θr), from `least` up to `hStar`. */
function dryTable(soil: Soil, least: number, hStar: number, count: number): HermiteTable {
  const [first, last] = [Math.log(least), Math.log(soil.theta(hStar) - soil.thetaR)];
  const spacing = (last - first) / (count - 1);
  const heads = Array.from({ length: count }, (_, k) =>
    k === count - 1 ? hStar : soil.hAtTheta(soil.thetaR + Math.exp(first + k * spacing)),
  );
  return hermiteTable(
    first,
    spacing,
    tableNodes(soil, heads, ({ h, K, dK }, phi) => {
      const dh = (soil.theta(h) - soil.thetaR) / soil.dThetaDh(h);
      return { values: [phi, K, h], slopes: [K * dh, dK * dh, dh] };
    }),
  );
}

/** φ is summed from node to node, so that the table's φ and K belong together. */
function tableNodes(soil: Soil, heads: number[], node: (at: KAtHead, phi: number) => HermiteNode): HermiteNode[] {
  const known = heads.map((h) => ({ h, K: soil.K(h), dK: soil.dKDh(h) }));
  let phi = soil.phi(first(heads));
  return known.map((at, k) => {
    if (k > 0) phi += integrateKBetween(soil.K, entry(known, k - 1), at);
    return node(at, phi);
  });
}
