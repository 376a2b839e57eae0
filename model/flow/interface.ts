import type { CellState, SoilTable } from "../soil/soilTable.ts";
import type { Ground } from "./ground.ts";
import { halfCellFlow, type SoilAtCell, soilAtCell } from "./halfCell.ts";
import type { Mesh } from "./mesh.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * Faces between two soils. The pressure head is one at the interface, while K, φ and θ jump; both soils carry the same
 * water from cell a to cell b,
 *
 *   Q = −Ta [φa(hf) − φa(a) + (da − df) K̄a] = Tb [φb(hf) − φb(b) + (db − df) K̄b],
 *
 * from which Newton's method eliminates the head hf at the face, as at the pot's wall.
 */
export interface LayerInterfaces {
  /** T of every face of the mesh; 0 at interfaces, whose flow `each` tells. */
  readonly otherT: Float64Array;
  each(soil: CellState, tell: (face: number, flow: InterfaceFlow) => void): void;
}

/** From cell a to cell b, and its derivatives with respect to their u. */
export interface InterfaceFlow {
  Q: number;
  dQa: number;
  dQb: number;
}

/** One soil's half of the way. */
interface Half {
  cell: SoilAtCell;
  table: SoilTable;
  T: number;
  /** Depth of the cell's centre less that of the face. */
  drop: number;
}

export function layerInterfaces(mesh: Mesh, ground: Ground): LayerInterfaces {
  const { a, b, T, drop } = mesh.faces;
  const isInterface = (f: number) => ground.layerOf(a[f]!) !== ground.layerOf(b[f]!);
  const found = Array.from(T.keys())
    .filter(isInterface)
    .map((f) => ({ f, share: shareBefore(mesh, ground, f) }));
  /** The last solution of each face: where the next search starts, without effect on where it ends. */
  const hFace = new Float64Array(T.length).fill(Number.NaN);
  return {
    otherT: T.map((value, f) => (isInterface(f) ? 0 : value)),
    each(soil, tell) {
      for (const { f, share } of found) {
        const half = (cell: number, own: number, side: number): Half => ({
          cell: soilAtCell(soil, cell),
          table: ground.tableOf(cell),
          T: T[f]! / own,
          drop: side * own * drop[f]!,
        });
        const solved = flowAcross(half(a[f]!, share, -1), half(b[f]!, 1 - share, 1), hFace[f]!);
        hFace[f] = solved.hf;
        tell(f, solved);
      }
    },
  };
}

/** Share of the way from a's centre to b's that lies in a's soil; half for a face that stands beside the interface. */
function shareBefore({ faces, dCell }: Mesh, ground: Ground, f: number): number {
  const [a, b] = [faces.a[f]!, faces.b[f]!];
  const share = (ground.bottomBetween(a, b) - dCell[a]!) / faces.drop[f]!;
  return share > 0.05 && share < 0.95 ? share : 0.5;
}

const MOST_ITERATIONS = 60;
/** A last step as small as this share of the head is not taken but reckoned along the slope, to its square. */
const NEAR = 1e-4;
const NOT_FOUND = { hf: Number.NaN, Q: Number.NaN, dQa: Number.NaN, dQb: Number.NaN };

/**
 * Between the heads at rest with either side the face's inflows cancel, their sum rising with hf. Where the search does
 * not converge, nothing is a number: no stage then counts as solved, and the run fails at this face.
 */
function flowAcross(a: Half, b: Half, guess: number): InterfaceFlow & { hf: number } {
  const [restA, restB] = [a.cell.h - a.drop, b.cell.h - b.drop];
  let dry = Math.min(restA, restB) - 1e-9;
  let wet = Math.max(restA, restB) + 1e-9;
  let hf = guess > dry && guess < wet ? guess : (dry + wet) / 2;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const intoA = halfCellFlow(hf, a.table.atHead(hf), a.cell, a.drop);
    const intoB = halfCellFlow(hf, b.table.atHead(hf), b.cell, b.drop);
    const sum = a.T * intoA.flow + b.T * intoB.flow;
    const slope = a.T * intoA.dhf + b.T * intoB.dhf;
    if (sum > 0) wet = hf;
    else dry = hf;
    const next = hf - sum / slope;
    const step = next > dry && next < wet ? next : (dry + wet) / 2;
    if (Math.abs(step - hf) <= NEAR * (1 + Math.abs(hf))) {
      const conducts = (b.T * intoB.dhf) / slope;
      return {
        hf: step,
        Q: b.T * (intoB.flow + intoB.dhf * (step - hf)),
        dQa: -a.T * intoA.du * conducts,
        dQb: b.T * intoB.du * (1 - conducts),
      };
    }
    hf = step;
  }
  return NOT_FOUND;
}
