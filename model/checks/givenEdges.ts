/** Edges of the soil as outside checks set them: a given flux, or a given head. */
import type { Boundary } from "../flow/boundary.ts";
import { halfCellFlow, soilAtCell } from "../flow/halfCell.ts";
import type { EdgeFaces } from "../flow/mesh.ts";
import type { SoilTable } from "../soil/soilTable.ts";

// In the loops over faces `!` stands in place of a check, which would cost time.

/** A given flux into the soil, cm/day. */
export function givenFlux({ cell, area }: EdgeFaces, flux: number): Boundary {
  return {
    name: "flux",
    isFromPot: false,
    cell,
    evaluate(_, __, { Q }) {
      for (let k = 0; k < cell.length; k++) Q[k] = flux * area[k]!;
    },
  };
}

/**
 * A given head, by face or for all: half a cell's flow, Q = T [φ(hb) − φ(h) + (d − db) K̄]. A water table is the head 0.
 */
export function givenHead(
  { cell, T, drop }: Pick<EdgeFaces, "cell" | "T" | "drop">,
  table: SoilTable,
  head: number | Float64Array,
): Boundary {
  const hb = Float64Array.from(cell, (_, k) => (typeof head === "number" ? head : head[k]!));
  const atFace = Array.from(hb, table.atHead);
  return {
    name: "head",
    isFromPot: false,
    cell,
    evaluate(s, _, { Q, dQdu }) {
      for (let k = 0; k < cell.length; k++) {
        const { flow, du } = halfCellFlow(hb[k]!, atFace[k]!, soilAtCell(s, cell[k]!), drop[k]!);
        Q[k] = T[k]! * flow;
        dQdu[k] = T[k]! * du;
      }
    },
  };
}
