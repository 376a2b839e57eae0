import type { Pot } from "../pot/pot.ts";
import type { SoilTable } from "../soil/soilTable.ts";
import type { Boundary } from "./boundary.ts";
import type { Ground } from "./ground.ts";
import { halfCellFlow, type SoilAtCell, soilAtCell } from "./halfCell.ts";
import type { WallFaces } from "./tensorMesh.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * The pot's wall in series with half a cell of soil. The total head inside is −dw everywhere, so that the wall passes
 * q = Kw (d − dw − hf) / wallThickness at an outer face at depth d, whatever its slope; the soil carries the same q from
 * the face to the cell's centre, (T/A) [φ(hf) − φ(h) + (dc − d) K̄]. The face's head hf is eliminated by Newton's method.
 * A stretch that the water line cuts carries water on its wet part, with that part's middle depth. A flat base goes on
 * carrying it below the water line, which only a step that overdraws the pot comes to: were it cut off at once, that step
 * would have no solution.
 */
export function potWall(wall: WallFaces, pot: Pot, ground: Pick<Ground, "tableOf">): Boundary {
  const { cell, area, T, upper, lower, drop } = wall;
  const conductance = pot.wallConductivity / pot.wallThickness;
  const tables = Array.from(cell, ground.tableOf);
  /** The last solution of each face: where the next search starts, without effect on where it ends. */
  const hFace = new Float64Array(cell.length).fill(Number.NaN);
  return {
    name: "wall",
    isFromPot: true,
    cell,
    evaluate(s, { dw, isEmpty }, { Q, dQdu, dQddw }) {
      for (let k = 0; k < cell.length; k++) {
        Q[k] = 0;
        dQdu[k] = 0;
        dQddw[k] = 0;
        const isFlat = upper[k]! === lower[k]!;
        if (isEmpty || (dw >= lower[k]! && !isFlat)) continue;
        const isCut = dw > upper[k]! && !isFlat;
        const depth = (isCut ? dw + lower[k]! : upper[k]! + lower[k]!) / 2;
        const wetShare = isCut ? (lower[k]! - dw) / (lower[k]! - upper[k]!) : 1;
        const c = cell[k]!;
        const face = seriesFlow(
          { conductance, perArea: T[k]! / area[k]!, drop: drop[k]!, p: depth - dw },
          soilAtCell(s, c),
          tables[k]!,
          hFace[k]!,
        );
        hFace[k] = face.hf;
        const dWetShare = isCut ? -1 / (lower[k]! - upper[k]!) : 0;
        const dp = isCut ? -0.5 : -1;
        Q[k] = face.q * area[k]! * wetShare;
        dQdu[k] = face.dqdu * area[k]! * wetShare;
        dQddw[k] = area[k]! * (face.dqdp * dp * wetShare + face.q * dWetShare);
      }
    },
  };
}

interface Series {
  /** Kw / wallThickness, 1/day. */
  conductance: number;
  /** Half a cell's T / A, 1/cm. */
  perArea: number;
  /** Depth of the cell's centre less that of the face. */
  drop: number;
  /** Head at the outer face if the wall passed nothing: d − dw. */
  p: number;
}

interface SeriesFlow {
  q: number;
  hf: number;
  dqdu: number;
  dqdp: number;
}

/**
 * Solves conductance (p − hf) = perArea [φ(hf) − φ(h) + drop K̄(hf, h)] for hf, by Newton's method between bounds, as the
 * difference of the two sides falls with hf. The last step found is so small that the next one would be rounding. Where
 * none is, nothing is a number: no stage then counts as solved, and the run fails at this cell.
 */
function seriesFlow(series: Series, cell: SoilAtCell, table: SoilTable, guess: number): SeriesFlow {
  const { conductance, perArea, p, drop } = series;
  let dry = Math.min(cell.h, p) - Math.abs(drop) - 1e-9;
  let wet = Math.max(cell.h, p) + Math.abs(drop) + 1e-9;
  let hf = guess > dry && guess < wet ? guess : Math.min(p, wet);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const side = halfCellFlow(hf, table.atHead(hf), cell, drop);
    const misfit = conductance * (p - hf) - perArea * side.flow;
    const slope = -conductance - perArea * side.dhf;
    const du = -perArea * side.du;
    if (misfit > 0) dry = hf;
    else wet = hf;
    const next = hf - misfit / slope;
    const step = next > dry && next < wet ? next : (dry + wet) / 2;
    if (Math.abs(step - hf) <= 1e-7 * (1 + Math.abs(hf)))
      return {
        hf: step,
        q: conductance * (p - step),
        dqdu: (conductance * du) / slope,
        dqdp: conductance * (1 + conductance / slope),
      };
    hf = step;
  }
  return NOT_FOUND;
}

const MOST_ITERATIONS = 60;
const NOT_FOUND: SeriesFlow = { hf: Number.NaN, q: Number.NaN, dqdu: Number.NaN, dqdp: Number.NaN };

/**
 * Water that a leaking plug lets out through the drain hole in the base: `plugLeak` when the pot is full and the soil
 * below at zero pressure, in proportion to the head across the plug; suction in the soil draws no more.
 */
export function leakingPlug(pot: Pot, cell: number): Boundary {
  const perHead = pot.plugLeak / (pot.emptyDepth - pot.fullDepth);
  return {
    name: "plug",
    isFromPot: true,
    cell: Int32Array.of(cell),
    evaluate({ h, dH }, { dw, isEmpty }, { Q, dQdu, dQddw }) {
      const soilHead = Math.max(h[cell]!, 0);
      const isOpen = !isEmpty && pot.emptyDepth - dw > soilHead;
      Q[0] = isOpen ? perHead * (pot.emptyDepth - dw - soilHead) : 0;
      dQdu[0] = isOpen && soilHead > 0 ? -perHead * dH[cell]! : 0;
      dQddw[0] = isOpen ? -perHead : 0;
    },
  };
}
