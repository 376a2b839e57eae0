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

export function frontShape(soil: Soil, startHead: number): FrontShape {
  const [dry, wet] = [Math.log(-startHead), Math.log(-WETTEST_NODE)];
  const h = Float64Array.from({ length: NODES + 1 }, (_, k) => -Math.exp(dry + ((wet - dry) * k) / NODES));
  const phi = new Float64Array(NODES + 1);
  const psi = new Float64Array(NODES + 1);
  const startTheta = soil.theta(startHead);
  for (let k = 0; k < NODES; k++) {
    const middle = -Math.sqrt(h[k]! * h[k + 1]!);
    const flux = soil.K(middle) * (h[k + 1]! - h[k]!);
    phi[k + 1] = phi[k]! + flux;
    psi[k + 1] = psi[k]! + flux / (soil.theta(middle) - startTheta);
  }
  return { h, phi, psi, soil, startTheta };
}

/**
 * Largest x with h > `edgeHead` along a line: 0 where no cell is wetter, the line's end where the last one is, unless a
 * sharp front stands within that last cell. Interpolated throughout where the front's shape is not known.
 */
export function edgePlace(line: CellLine, edgeHead: number, shape: FrontShape | undefined): number {
  const { end, h } = line;
  let last = h.length - 1;
  while (last >= 0 && h[last]! <= edgeHead) last--;
  if (last < 0) return 0;
  const isAtEnd = last === h.length - 1;
  const plain = isAtEnd ? end[last]! : interpolated(line, last, edgeHead);
  const jump = isAtEnd ? jumpAfter(h, last - 1) : jumpAfter(h, last);
  const share = Math.min(Math.max((jump - GRADUAL) / (SHARP - GRADUAL), 0), 1);
  if (!shape || share === 0 || edgeHead <= shape.h[0]!) return plain;
  return share * fromWater(line, last, edgeHead, shape, plain) + (1 - share) * plain;
}

/** How much ln|h| rises from a cell to the next. */
const jumpAfter = (h: Float64Array, k: number) => (k < 0 ? 0 : lnSuction(h[k + 1]!) - lnSuction(h[k]!));

const lnSuction = (h: number) => Math.log(Math.max(-h, -WETTEST_NODE));

function interpolated({ x, h }: CellLine, last: number, edgeHead: number): number {
  const [wet, dry] = [lnSuction(h[last]!), lnSuction(h[last + 1]!)];
  return x[last]! + ((x[last + 1]! - x[last]!) * (lnSuction(edgeHead) - wet)) / (dry - wet);
}

/**
 * From the cell behind the last wet one, if the front no longer reaches it and what lies behind is about as wet, so that
 * the way to the edge is short; else from one cell farther back, and between the two in proportion.
 */
function fromWater(line: CellLine, last: number, edgeHead: number, shape: FrontShape, plain: number): number {
  const { theta, end } = line;
  const [near, far] = [Math.max(last - 1, 0), Math.max(last - 2, 0)];
  const evenness = (theta[near]! - shape.startTheta) / (theta[far]! - shape.startTheta);
  const share = Math.min(Math.max((evenness - UNEVEN) / (EVEN - UNEVEN), 0), 1);
  const from = (cell: number) => fromCell(line, cell, last, edgeHead, shape, plain);
  const place = share * from(near) + (1 - share) * from(far);
  return Math.min(place, end[Math.min(last + 1, end.length - 1)]!);
}

function fromCell(
  line: CellLine,
  from: number,
  last: number,
  edgeHead: number,
  shape: FrontShape,
  plain: number,
): number {
  const water = waterBeyond(line, from, Math.min(last + CELLS_AHEAD, line.x.length - 1), shape.startTheta, plain);
  const behind = shapeAt(shape, line.h[from]!);
  return line.x[from]! + (water * (behind.psi - shapeAt(shape, edgeHead).psi)) / behind.phi;
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
  for (let k = from; k <= to; k++) {
    const begin = k === from ? x[k]! : end[k - 1]!;
    const size = direction === "down" ? end[k]! - begin : (end[k]! ** 2 - begin ** 2) / 2;
    sum += size * (theta[k]! - startTheta);
  }
  return direction === "down" ? sum : sum / ((x[from]! + front) / 2);
}

/** φ − φ₀ and ψ at a head, linear in ln|h| between the nodes; saturated soil conducts Ks. */
function shapeAt({ h, phi, psi, soil, startTheta }: FrontShape, head: number): { phi: number; psi: number } {
  const wettest = h[NODES]!;
  if (head > wettest) {
    const flux = soil.Ks * (head - wettest);
    return { phi: phi[NODES]! + flux, psi: psi[NODES]! + flux / (soil.thetaS - startTheta) };
  }
  const x = (NODES * Math.log(head / h[0]!)) / Math.log(wettest / h[0]!);
  const k = Math.min(Math.max(Math.floor(x), 0), NODES - 1);
  const between = (values: Float64Array) => values[k]! + (x - k) * (values[k + 1]! - values[k]!);
  return { phi: between(phi), psi: between(psi) };
}
