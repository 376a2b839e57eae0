/** Flow across the faces between cells: see `assembly.ts` and `interface.ts`. */
import { add, Cell, clear, Face, faceA, faceB, faceCount, n, number, ofCells, ofFaces, set, tables, whole } from "./memory";
import {
  boundByWeight,
  halfByCell,
  halfByFace,
  halfCell,
  halfFlow,
  isBeyond,
  KAtHead,
  MOST_ITERATIONS,
  NEARLY_EQUAL_HEADS,
  phiAtHead,
  pullOfUpper,
  readAtHead,
  SHORTER,
  slopeOfK,
} from "./soil";

/**
 * Begins the sums of inflow and its slopes with the faces. The slopes leave out that K̄ changes with a head where they would
 * turn round. In soil that is nearly without water the head runs away with u, and would lead Newton's method astray.
 */
export function addFaces(): void {
  const atT = ofFaces(Face.T);
  const atDrop = ofFaces(Face.drop);
  const atK = ofCells(Cell.K);
  const atDK = ofCells(Cell.dK);
  const atDH = ofCells(Cell.dH);
  const inflow = ofCells(Cell.inflow);
  const diagonal = ofCells(Cell.diagonal);
  const ab = ofFaces(Face.ab);
  const ba = ofFaces(Face.ba);
  for (let field: i32 = Cell.inflow; field <= Cell.dReleaseDu; field++) clear(ofCells(field), n);
  const phi = ofCells(Cell.phi);
  const dPhi = ofCells(Cell.dPhi);
  const heads = ofCells(Cell.h);
  for (let f = 0; f < faceCount; f++) {
    const a = whole(faceA, f);
    const b = whole(faceB, f);
    const T = number(atT, f);
    const drop = number(atDrop, f);
    let Q = T * (number(phi, a) - number(phi, b));
    let dQa = T * number(dPhi, a);
    let dQb = -T * number(dPhi, b);
    if (drop != 0) {
      const difference = number(heads, a) - number(heads, b);
      if (abs(difference) < NEARLY_EQUAL_HEADS) {
        const half = (T * drop) / 2;
        Q += half * (number(atK, a) + number(atK, b));
        dQa += half * number(atDK, a);
        dQb += half * number(atDK, b);
      } else {
        const inverse = 1 / difference;
        const share = drop * inverse;
        const mean = Q * inverse;
        Q += share * Q;
        const byA = dQa + share * (dQa - mean * number(atDH, a));
        const byB = dQb + share * (dQb + mean * number(atDH, b));
        if (byA > 0) dQa = byA;
        if (byB < 0) dQb = byB;
        const upper = drop > 0 ? a : b;
        const pull = pullOfUpper(share);
        const bound = T * boundByWeight(drop, number(atK, upper), number(phi, upper), pull);
        if (isBeyond(Q, bound, drop, share)) {
          Q = bound;
          const byUpper = T * boundByWeight(drop, number(atDK, upper), number(dPhi, upper), pull);
          dQa = drop > 0 ? byUpper : 0;
          dQb = drop > 0 ? 0 : byUpper;
        }
      }
    }
    add(inflow, a, -Q);
    add(inflow, b, Q);
    add(diagonal, a, -dQa);
    add(diagonal, b, dQb);
    set(ab, f, -dQb);
    set(ba, f, dQa);
  }
}

function addFlow(f: i32, a: i32, b: i32, Q: f64, dQa: f64, dQb: f64): void {
  add(ofCells(Cell.inflow), a, -Q);
  add(ofCells(Cell.inflow), b, Q);
  add(ofCells(Cell.diagonal), a, -dQa);
  add(ofCells(Cell.diagonal), b, dQb);
  set(ofFaces(Face.ab), f, -dQb);
  set(ofFaces(Face.ba), f, dQa);
}

/** Lists of faces between two soils: see `interface.ts`. */
const enum Interface {
  Ta,
  Tb,
  dropA,
  dropB,
  hFace,
}

/** A last step as small as this share of the head is not taken but reckoned along the slope, to its square. */
const NEAR: f64 = 1e-7;

/** The flow and its slopes by the u of both cells; set by `acrossInterface`. */
let flow: f64 = 0;
let byA: f64 = 0;
let byB: f64 = 0;

/**
 * Between the heads at rest with either side the face's inflows cancel, their sum rising with its head hf. Where the search
 * does not converge, nothing is a number: no stage then counts as solved, and the run fails at this face.
 */
function acrossInterface(a: i32, b: i32, Ta: f64, Tb: f64, dropA: f64, dropB: f64, guess: f64): f64 {
  const tableA = <usize>whole(tables, a);
  const hA = number(ofCells(Cell.h), a);
  readAtHead(tableA, hA);
  const phiA = phiAtHead;
  const KA = KAtHead;
  const dKA = slopeOfK(a);
  const tableB = <usize>whole(tables, b);
  const hB = number(ofCells(Cell.h), b);
  readAtHead(tableB, hB);
  const phiB = phiAtHead;
  const KB = KAtHead;
  const dKB = slopeOfK(b);
  const restA = hA - dropA;
  const restB = hB - dropB;
  let dry = min(restA, restB) - 1e-9;
  let wet = max(restA, restB) + 1e-9;
  let hf = guess > dry && guess < wet ? guess : (dry + wet) / 2;
  let stride: f64 = Infinity;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    halfCell(tableA, hf, hA, phiA, KA, dKA, dropA);
    const intoA = Ta * halfFlow;
    const byFaceA = Ta * halfByFace;
    const byCellA = Ta * halfByCell * number(ofCells(Cell.dH), a);
    halfCell(tableB, hf, hB, phiB, KB, dKB, dropB);
    const sum = intoA + Tb * halfFlow;
    const slope = byFaceA + Tb * halfByFace;
    if (!isFinite(sum)) break;
    if (sum > 0) wet = hf;
    else dry = hf;
    const next = hf - sum / slope;
    const to = next > dry && next < wet && abs(next - hf) < SHORTER * stride ? next : (dry + wet) / 2;
    stride = abs(to - hf);
    if (abs(to - hf) <= NEAR * (1 + abs(hf))) {
      const conducts = (Tb * halfByFace) / slope;
      flow = Tb * (halfFlow + halfByFace * (to - hf));
      byA = -byCellA * conducts;
      byB = Tb * halfByCell * number(ofCells(Cell.dH), b) * (1 - conducts);
      return to;
    }
    hf = to;
  }
  flow = byA = byB = NaN;
  return NaN;
}

/** The faces between two soils, whose T is 0 in `addFaces`. */
export function addInterfaces(count: i32, numbers: usize, lists: usize): void {
  const size = <usize>count << 3;
  const hFace = lists + Interface.hFace * size;
  for (let k = 0; k < count; k++) {
    const f = whole(numbers, k);
    const a = whole(faceA, f);
    const b = whole(faceB, f);
    const Ta = number(lists + Interface.Ta * size, k);
    const Tb = number(lists + Interface.Tb * size, k);
    const dropA = number(lists + Interface.dropA * size, k);
    const dropB = number(lists + Interface.dropB * size, k);
    set(hFace, k, acrossInterface(a, b, Ta, Tb, dropA, dropB, number(hFace, k)));
    addFlow(f, a, b, flow, byA, byB);
  }
}
