import { maxIndex, range } from "d3-array";
import { first } from "../input/lists.ts";
import { integrateKBetween, type KAtHead } from "./quadrature.ts";
import type { Soil } from "./soil.ts";

// In the loops over nodes `!` stands in place of a check, which would cost time.

/**
 * The soil functions as the flow solver reads them, by the unknown `u` that it works in:
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
  /**
   * Head of the table, two runs of cubics, and their stretches. The dry run has φ, K and h by θ − θr; the suction run φ, K
   * and θ by −h. Nodes lie evenly between a number and its double, so that the leading bits of a number name its stretch.
   */
  readonly packed: Float64Array;
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
  /** Nodes of the dry run, at least; the other one has half as many. */
  nodes?: number;
}

const WET_END = -0.1;
const NODES = 500;
/** No drier than this share of the pore space, e^−30. */
const LEAST_LN_SE = -30;

/** Cubic Hermite tables with exact slopes at their nodes. */
export function soilTable(soil: Soil, options: TableOptions = {}): SoilTable {
  const { driest = -1e7, wetEnd = WET_END, nodes = NODES } = options;
  const { thetaR, thetaS, Ks } = soil;
  const hStar = headOfLargestCapacity(soil, wetEnd);
  const thetaStar = soil.theta(hStar);
  const cStar = soil.dThetaDh(hStar);
  const least = Math.max(soil.theta(driest) - thetaR, (thetaS - thetaR) * Math.exp(LEAST_LN_SE));
  const dry = nodesOver(least, thetaStar - thetaR, nodes);
  const suction = nodesOver(-wetEnd, -driest, nodes / 2);
  const stretches = { dry: dryStretches(soil, dry.at, hStar), suction: suctionStretches(soil, suction.at) };
  const phi0 = firstPhi(stretches.suction, -wetEnd) - (wetEnd * (soil.K(wetEnd) + Ks)) / 2;
  const KSlope = (soil.K(wetEnd) - Ks) / wetEnd;
  const thetaSlope = (soil.theta(wetEnd) - thetaS) / wetEnd;
  const head = [thetaR, thetaS, thetaStar, hStar, cStar, least, wetEnd, Ks, KSlope, thetaSlope, phi0];
  const start = head.length + 2 * 4;
  const next = start + stretches.dry.length;
  const packed = new Float64Array(next + stretches.suction.length);
  packed.set([...head, ...placesOf(dry, start), ...placesOf(suction, next)]);
  packed.set(stretches.dry, start);
  packed.set(stretches.suction, next);
  return {
    soil,
    uAtHead: (h) => (h < hStar ? soil.theta(h) : thetaStar + cStar * (h - hStar)),
    packed,
  };
}

/** φ at a place in the first stretch. */
function firstPhi([from = 0, y = 0, m = 0, c2 = 0, c3 = 0]: Float64Array, x: number): number {
  const d = x - from;
  return y + d * (m + d * (c2 + d * c3));
}

/** Largest dθ/dh between the driest useful head and `wetEnd`; `wetEnd` when the capacity still rises there. */
function headOfLargestCapacity(soil: Soil, wetEnd: number): number {
  const [wettest, driest] = [Math.log(-wetEnd), Math.log(1e5)];
  const steps = 400;
  const headOf = (k: number) => -Math.exp(wettest + ((driest - wettest) * k) / steps);
  const capacities = Array.from({ length: steps + 1 }, (_, k) => soil.dThetaDh(headOf(k)));
  return headOf(maxIndex(capacities));
}

/** Of a number's 8 bytes the leading bits are its exponent, from 2^−1023 on, and 52 bits its fraction. */
const EXPONENT_BIAS = 1023;
const FRACTION_BITS = 52;
const MOST_BITS = 12;

/** Nodes of a run, 2 ** bits of them from a number to its double; `first` is what the leading bits of the first one say. */
interface Nodes {
  bits: number;
  first: number;
  at: number[];
}

/** At least so many nodes from one number up to another; the first one may be less. */
function nodesOver(from: number, to: number, least: number): Nodes {
  for (let bits = 2; ; bits++) {
    const parts = 2 ** bits;
    const placeOf = (x: number) => {
      const exponent = Math.floor(Math.log2(x));
      return Math.floor((exponent + EXPONENT_BIAS + x / 2 ** exponent - 1) * parts);
    };
    const nodeAt = (place: number) => 2 ** (Math.floor(place / parts) - EXPONENT_BIAS) * (1 + (place % parts) / parts);
    const [first, last] = [placeOf(from), placeOf(to)];
    if (last - first < least && bits < MOST_BITS) continue;
    const below = range(first, last + 1).map(nodeAt);
    return { bits, first, at: [...below.filter((x) => x < to), to] };
  }
}

/** How far a number's bits are shifted, the first and last place, and where the stretches begin. */
const placesOf = ({ bits, first, at }: Nodes, start: number) => [
  FRACTION_BITS - bits,
  first,
  first + at.length - 2,
  start,
];

/** φ, K and h by θ − θr. */
function dryStretches(soil: Soil, excesses: readonly number[], hStar: number): Float64Array {
  const heads = excesses.map((excess) => soil.hAtTheta(soil.thetaR + excess)).with(-1, hStar);
  const { K, dK, phi } = conducting(soil, heads);
  const dh = heads.map((h) => 1 / soil.dThetaDh(h));
  const times = (values: readonly number[]) => values.map((value, k) => value * dh[k]!);
  return cubics(excesses, [phi, K, heads], [times(K), times(dK), dh]);
}

/** φ, K and θ by −h. */
function suctionStretches(soil: Soil, suctions: readonly number[]): Float64Array {
  const heads = suctions.map((suction) => -suction).reverse();
  const { K, dK, phi } = conducting(soil, heads);
  const turned = (list: number[], sign: number) => list.map((value) => sign * value).reverse();
  const values = [phi, K, heads.map(soil.theta)].map((list) => turned(list, 1));
  const slopes = [K, dK, heads.map(soil.dThetaDh)].map((list) => turned(list, -1));
  return cubics(suctions, values, slopes);
}

/** From dry to wet; φ is summed from head to head, so that the table's φ and K belong together. */
function conducting(soil: Soil, heads: readonly number[]) {
  const [K, dK] = [heads.map(soil.K), heads.map(soil.dKDh)];
  let phi = soil.phi(first(heads));
  let before: KAtHead | undefined;
  const sums = heads.map((h, k) => {
    const at = { h, K: K[k]!, dK: dK[k]! };
    if (before) phi += integrateKBetween(soil.K, before, at);
    before = at;
    return phi;
  });
  return { K, dK, phi: sums };
}

type Lists = readonly (readonly number[])[];

/** Numbers of a stretch: where it begins, and four coefficients for each of three functions. */
const STRETCH = 13;

/** The cubics between two nodes each, in powers of x less the first one, from values and slopes of three functions. */
function cubics(x: readonly number[], values: Lists, slopes: Lists): Float64Array {
  const packed = new Float64Array(STRETCH * (x.length - 1));
  for (let k = 0; k < x.length - 1; k++) packed[STRETCH * k] = x[k]!;
  values.forEach((y, f) => {
    const m = slopes[f]!;
    for (let k = 0; k < x.length - 1; k++) {
      const at = STRETCH * k + 1 + 4 * f;
      const width = x[k + 1]! - x[k]!;
      const rise = (y[k + 1]! - y[k]!) / width;
      packed[at] = y[k]!;
      packed[at + 1] = m[k]!;
      packed[at + 2] = (3 * rise - 2 * m[k]! - m[k + 1]!) / width;
      packed[at + 3] = (m[k]! + m[k + 1]! - 2 * rise) / (width * width);
    }
  });
  return packed;
}
