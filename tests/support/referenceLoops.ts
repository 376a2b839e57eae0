/**
 * The solver's loops once more, in plain TypeScript and as the equations stand, to judge the kernel by. Nothing here is
 * fast: each function takes what it needs and gives numbers.
 */
import type { SoilTable } from "../../model/soil/soilTable.ts";

/** Soil functions at u, with their derivatives by u. */
export interface SoilState {
  theta: number;
  dTheta: number;
  h: number;
  dH: number;
  phi: number;
  dPhi: number;
  K: number;
  dK: number;
}

const HEAD = [
  ...["thetaR", "thetaS", "thetaStar", "hStar", "cStar", "least", "wetEnd", "Ks", "KSlope", "thetaSlope", "phi0"],
  ...["dryShift", "dryFirst", "dryLast", "dryStart", "wetShift", "wetFirst", "wetLast", "wetStart"],
] as const;

/** What saturated ground takes up by cm of head. */
const STORAGE = 1e-5;

const headOf = ({ packed }: SoilTable) => Object.fromEntries(HEAD.map((name, k) => [name, packed[k]!]));

/** Values and slopes of three cubics at x, in the last stretch that begins at or below it. */
function cubics({ packed }: SoilTable, start: number, count: number, x: number) {
  let k = 0;
  while (k + 1 < count && packed[start + 13 * (k + 1)]! <= x) k++;
  const d = x - packed[start + 13 * k]!;
  return [0, 1, 2].map((f) => {
    const [c0, c1, c2, c3] = packed.subarray(start + 13 * k + 1 + 4 * f) as unknown as [number, number, number, number];
    return { value: c0 + d * (c1 + d * (c2 + d * c3)), slope: c1 + d * (2 * c2 + 3 * d * c3) };
  }) as [Cubic, Cubic, Cubic];
}

interface Cubic {
  value: number;
  slope: number;
}

/** φ, K, dK/dh, θ and dθ/dh at a head, from the suctions' run or the straight end. */
function atHead(table: SoilTable, h: number) {
  const t = headOf(table) as Record<(typeof HEAD)[number], number>;
  if (h < t.wetEnd) {
    const [phi, K, theta] = cubics(table, t.wetStart, t.wetLast - t.wetFirst + 1, -h);
    return { phi: phi.value, K: -phi.slope, dK: -K.slope, theta: theta.value, C: -theta.slope };
  }
  const below = Math.min(h, 0);
  const [dK, C] = h < 1e-9 ? [t.KSlope, t.thetaSlope] : [0, STORAGE];
  const phi = t.phi0 + t.Ks * h + (t.KSlope * below ** 2) / 2;
  const pressed = STORAGE * Math.max(h, 0);
  return { phi, K: t.Ks + t.KSlope * below, dK, theta: t.thetaS + t.thetaSlope * below + pressed, C };
}

export function soilState(table: SoilTable, u: number): SoilState {
  const t = headOf(table) as Record<(typeof HEAD)[number], number>;
  if (u < t.thetaStar) {
    const excess = Math.max(u - t.thetaR, t.least);
    const [phi, K, h] = cubics(table, t.dryStart, t.dryLast - t.dryFirst + 1, excess);
    const slopes = { dH: h.slope, dPhi: phi.slope, dK: K.slope };
    return { theta: u, dTheta: 1, h: h.value, phi: phi.value, K: phi.slope / h.slope, ...slopes };
  }
  const h = t.hStar + (u - t.thetaStar) / t.cStar;
  const { phi, K, dK, theta, C } = atHead(table, h);
  const dH = 1 / t.cStar;
  return { theta, dTheta: C * dH, h, dH, phi, dPhi: K * dH, K, dK: dK * dH };
}

/**
 * Q = T [φ(a) − φ(b) + drop K̄] within its bounds, and its slopes by the u of a and b, which leave out those of K̄ where they
 * would turn round.
 */
export function faceFlow(a: SoilState, b: SoilState, T: number, drop: number) {
  const [difference, rise] = [a.h - b.h, a.phi - b.phi];
  if (drop === 0) return { Q: T * rise, byA: T * a.dPhi, byB: -T * b.dPhi };
  if (Math.abs(difference) < 1e-4) {
    const [byA, byB] = [a.dPhi + (drop * a.dK) / 2, -b.dPhi + (drop * b.dK) / 2];
    return { Q: T * (rise + (drop * (a.K + b.K)) / 2), byA: T * byA, byB: T * byB };
  }
  const mean = rise / difference;
  const byA = a.dPhi + (drop * (a.dPhi - mean * a.dH)) / difference;
  const byB = -b.dPhi + (drop * (mean * b.dH - b.dPhi)) / difference;
  const upper = drop > 0 ? a : b;
  const { bound, isBeyond } = boundOf(rise + drop * mean, drop, difference, upper);
  if (!isBeyond)
    return { Q: T * (rise + drop * mean), byA: T * (byA > 0 ? byA : a.dPhi), byB: T * (byB < 0 ? byB : -b.dPhi) };
  const pull = drop * difference > 0 ? 2 * Math.sign(drop) : 0;
  const byUpper = T * (drop * upper.dK - pull * upper.dPhi);
  return { Q: T * bound, byA: drop > 0 ? byUpper : 0, byB: drop > 0 ? 0 : byUpper };
}

/** What flows down is at least |drop| K − 2 φ of the upper place where that is the wetter, and at most |drop| K where it is not. */
function boundOf(flow: number, drop: number, difference: number, { K, phi }: { K: number; phi: number }) {
  const [down, isUpperWetter] = [Math.sign(drop) * flow, drop * difference > 0];
  const bound = Math.abs(drop) * K - (isUpperWetter ? 2 * phi : 0);
  return { bound: Math.sign(drop) * bound, isBeyond: isUpperWetter ? down < bound : down > bound };
}

/** φ(hf) − φ(h) + drop K̄(hf, h) within its bounds, from a face at a head to the centre of its cell, both read by suction. */
export function halfCell(table: SoilTable, hf: number, { h }: SoilState, drop: number): number {
  const [face, centre] = [atHead(table, hf), atHead(table, h)];
  const rise = face.phi - centre.phi;
  if (Math.abs(hf - h) < 1e-4) return rise + (drop * (face.K + centre.K)) / 2;
  const flow = rise + (drop * rise) / (hf - h);
  const { bound, isBeyond } = boundOf(flow, drop, hf - h, drop > 0 ? face : centre);
  return drop !== 0 && isBeyond ? bound : flow;
}

/** The head between `dry` and `wet` at which something that falls with it is 0: by halving. */
export function fallsTo0(of: (h: number) => number, dry: number, wet: number): number {
  let [low, high] = [dry, wet];
  for (let k = 0; k < 100; k++) {
    const middle = (low + high) / 2;
    if (of(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
