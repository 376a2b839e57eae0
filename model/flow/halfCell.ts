import type { CellState } from "../soil/soilTable.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/** Below this difference of head the mean conductivity is the arithmetic one, cm. */
export const NEARLY_EQUAL_HEADS = 1e-4;

/** The soil's state in a cell, derivatives with respect to its u; see `CellState`. */
export type SoilAtCell = Record<"h" | "dH" | "phi" | "dPhi" | "K" | "dK", number>;

export const soilAtCell = ({ h, dH, phi, dPhi, K, dK }: CellState, c: number): SoilAtCell => ({
  h: h[c]!,
  dH: dH[c]!,
  phi: phi[c]!,
  dPhi: dPhi[c]!,
  K: K[c]!,
  dK: dK[c]!,
});

/** Flow from a face to the centre of its cell, over T; and its derivatives with respect to the face's head and the cell's u. */
export interface HalfCellFlow {
  flow: number;
  dhf: number;
  du: number;
}

/**
 * φ(hf) − φ(h) + drop K̄(hf, h), with `drop` the depth of the centre less that of the face; φ and K at the face are those of
 * the cell's own soil.
 */
export function halfCellFlow(
  hf: number,
  { phi, K }: { phi: number; K: number },
  cell: SoilAtCell,
  drop: number,
): HalfCellFlow {
  const rise = phi - cell.phi;
  if (drop === 0) return { flow: rise, dhf: K, du: -cell.dPhi };
  const difference = hf - cell.h;
  if (Math.abs(difference) < NEARLY_EQUAL_HEADS)
    return {
      flow: rise + (drop * (K + cell.K)) / 2,
      dhf: K + (drop * cell.dK) / (2 * cell.dH),
      du: (drop * cell.dK) / 2 - cell.dPhi,
    };
  const mean = rise / difference;
  const share = drop / difference;
  return {
    flow: rise + drop * mean,
    dhf: K + share * (K - mean),
    du: share * (mean * cell.dH - cell.dPhi) - cell.dPhi,
  };
}
