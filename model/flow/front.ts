import { pairs } from "d3-array";
import { entry, first, last } from "../input/lists.ts";
import type { Soil } from "../soil/soil.ts";

/**
 * Where the soil is just as wet as a given head, better than to a cell.
 *
 * A front in coarse soil is thinner than a cell: interpolating between centres then misses by up to a cell. But the
 * water in the cells is right, and the soil's functions give the front's shape. Near a front that moves at speed v,
 *
 *   v (θ − θ₀) = −dφ/dx,   so that   ψ(h) = ∫ K dh / (θ − θ₀) falls evenly along x;
 *
 * and the water beyond a place L behind the front, M = ∫ (θ − θ₀) dx, obeys v M = φ_L − φ₀. Hence
 *
 *   x(edge) = x_L + M [ψ(h_L) − ψ(h_edge)] / (φ_L − φ₀):   water places the front, the soil gives its shape.
 *
 * Where the crossing is gradual, plain interpolation of ln|h| is as good and takes over.
 */
export interface FrontShape {
  /** Heads from the start's up to nearly 0, increasing. */
  h: Float64Array;
  /** φ − φ₀ and ψ at those heads. */
  phi: Float64Array;
  psi: Float64Array;
  soil: Soil;
  startTheta: number;
}

/** A row or column of cells away from the pot. */
export interface CellLine {
  /** Centres and outer ends, measured from the axis or from the surface. */
  x: Float64Array;
  end: Float64Array;
  h: Float64Array;
  theta: Float64Array;
  /** Outward along a row, where rings grow with x, or down a column. */
  direction: "outward" | "down";
}

const NODES = 300;
const WETTEST_NODE = -0.01;
/** How wet a cell is against the one behind it where the front still reaches it, and where it does not. */
const UNEVEN = 0.8;
const EVEN = 0.95;
const CELLS_AHEAD = 2;
/** Jump of ln|h| between two centres below which interpolation is taken, and above which the water is. */
const GRADUAL = 0.3;
const SHARP = 1;

/** Undefined where the soil is so wet at the start that it can take up no water to speak of. */
export function frontShape(soil: Soil, startHead: number): FrontShape | undefined {
  if (startHead >= WETTEST_NODE) return undefined;
  const [dry, wet] = [Math.log(-startHead), Math.log(-WETTEST_NODE)];
  const h = Float64Array.from({ length: NODES + 1 }, (_, k) => -Math.exp(dry + ((wet - dry) * k) / NODES));
  const phi = new Float64Array(NODES + 1);
  const psi = new Float64Array(NODES + 1);
  const startTheta = soil.theta(startHead);
  let sums = { phi: 0, psi: 0 };
  for (const [k, [dryer, wetter]] of pairs(h).entries()) {
    const middle = -Math.sqrt(dryer * wetter);
    const flux = soil.K(middle) * (wetter - dryer);
    sums = { phi: sums.phi + flux, psi: sums.psi + flux / (soil.theta(middle) - startTheta) };
    phi[k + 1] = sums.phi;
    psi[k + 1] = sums.psi;
  }
  return Number.isFinite(sums.psi) ? { h, phi, psi, soil, startTheta } : undefined;
}

/**
 * Largest x with h > `edgeHead` along a line: 0 where no cell is wetter, the line's end where the last one is, unless a
 * sharp front stands within that last cell. Interpolated throughout where the front's shape is not known, and where no water
 * has come that could place it.
 */
export function edgePlace(line: CellLine, edgeHead: number, shape: FrontShape | undefined): number {
  const { end, h } = line;
  const wet = h.findLastIndex((head) => !(head <= edgeHead));
  if (wet < 0) return 0;
  const isAtEnd = wet === h.length - 1;
  const plain = isAtEnd ? last(end) : interpolated(line, wet, edgeHead);
  const jump = isAtEnd ? jumpAfter(h, wet - 1) : jumpAfter(h, wet);
  const share = Math.min(Math.max((jump - GRADUAL) / (SHARP - GRADUAL), 0), 1);
  if (!shape || share === 0 || edgeHead <= first(shape.h)) return plain;
  const place = fromWater(line, wet, edgeHead, shape, plain);
  return Number.isFinite(place) ? share * place + (1 - share) * plain : plain;
}

/** How much ln|h| rises from a cell to the next. */
const jumpAfter = (h: Float64Array, k: number) => (k < 0 ? 0 : lnSuction(entry(h, k + 1)) - lnSuction(entry(h, k)));

const lnSuction = (h: number) => Math.log(Math.max(-h, -WETTEST_NODE));

/** In ln|h|; in h for an edge at saturation, where the logarithm ends. */
function interpolated({ x, h }: CellLine, k: number, edgeHead: number): number {
  const scale = edgeHead < WETTEST_NODE ? lnSuction : (head: number) => -head;
  const [wet, dry] = [scale(entry(h, k)), scale(entry(h, k + 1))];
  return entry(x, k) + ((entry(x, k + 1) - entry(x, k)) * (scale(edgeHead) - wet)) / (dry - wet);
}

/**
 * From the cell behind the last wet one, if the front no longer reaches it and what lies behind is about as wet, so that
 * the way to the edge is short; else from one cell farther back, and between the two in proportion. The edge lies between there
 * and the end of the first dry cell, whatever the water says: soil that is nearly full at the start takes up too little to go by.
 */
function fromWater(line: CellLine, wet: number, edgeHead: number, shape: FrontShape, plain: number): number {
  const { theta, end, x } = line;
  const [near, far] = [Math.max(wet - 1, 0), Math.max(wet - 2, 0)];
  const evenness = (entry(theta, near) - shape.startTheta) / (entry(theta, far) - shape.startTheta);
  const share = Math.min(Math.max((evenness - UNEVEN) / (EVEN - UNEVEN), 0), 1);
  const place =
    share * fromCell(line, near, wet, edgeHead, shape, plain) +
    (1 - share) * fromCell(line, far, wet, edgeHead, shape, plain);
  return Math.max(Math.min(place, end[wet + 1] ?? last(end)), entry(x, far));
}

function fromCell(
  line: CellLine,
  from: number,
  wet: number,
  edgeHead: number,
  shape: FrontShape,
  plain: number,
): number {
  const water = waterBeyond(line, from, Math.min(wet + CELLS_AHEAD, line.x.length - 1), shape.startTheta, plain);
  const behind = shapeAt(shape, entry(line.h, from));
  return entry(line.x, from) + (water * (behind.psi - shapeAt(shape, edgeHead).psi)) / behind.phi;
}

/** Water above the start's from the centre of cell `from` to the end of cell `to`, cm³ per cm² of front. */
function waterBeyond(
  { x, end, theta, direction }: CellLine,
  from: number,
  to: number,
  startTheta: number,
  front: number,
) {
  let sum = 0;
  let begin = entry(x, from);
  for (const [k, finish] of end.subarray(from, to + 1).entries()) {
    const size = direction === "down" ? finish - begin : (finish ** 2 - begin ** 2) / 2;
    sum += size * (entry(theta, from + k) - startTheta);
    begin = finish;
  }
  return direction === "down" ? sum : sum / ((entry(x, from) + front) / 2);
}

/** φ − φ₀ and ψ at a head, linear in ln|h| between the nodes; saturated soil conducts Ks. */
function shapeAt({ h, phi, psi, soil, startTheta }: FrontShape, head: number): { phi: number; psi: number } {
  const [driest, wettest] = [first(h), last(h)];
  if (head > wettest) {
    const flux = soil.Ks * (head - wettest);
    return { phi: last(phi) + flux, psi: last(psi) + flux / (soil.thetaS - startTheta) };
  }
  const x = (NODES * Math.log(head / driest)) / Math.log(wettest / driest);
  return { phi: between(phi, x), psi: between(psi, x) };
}

/** Linear between the nodes, and beyond them as in the outermost stretch. */
function between(values: Float64Array, x: number): number {
  const k = Math.min(Math.max(Math.floor(x), 0), NODES - 1);
  const [from, to] = [entry(values, k), entry(values, k + 1)];
  return from + (x - k) * (to - from);
}
