import type { CellState } from "../soil/soilTable.ts";
import type { EdgeFaces } from "./mesh.ts";
import type { Spell } from "./problem.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * Water that crosses the edge of the soil, roots among it. Each kind of edge fills, for each of its faces, the flow into the soil and
 * its derivatives; the assembly adds them to the cells. Sides without a boundary are closed.
 */
export interface Boundary {
  /** What the water balance calls it. */
  readonly name: string;
  /** Whether its water comes out of the pot. */
  readonly isFromPot: boolean;
  /** Cell of each face. */
  readonly cell: Int32Array;
  /** Head at which the flow sets in at once, if it does: Newton's method then stops there on its way. */
  readonly cornerHead?: number;
  evaluate(soil: CellState, pot: PotState, flows: BoundaryFlows, moment: Moment): void;
}

/** The time, and the weather of the step. */
export interface Moment {
  t: number;
  spell: Spell;
}

/** What the wall needs to know of the pot: the water level depth, and whether there is any water. */
export interface PotState {
  dw: number;
  isEmpty: boolean;
}

/** By face: flow into the soil (cm³/day), and its derivatives with respect to the cell's u and to the level dw. */
export interface BoundaryFlows {
  Q: Float64Array;
  dQdu: Float64Array;
  dQddw: Float64Array;
}

export function boundaryFlows({ cell }: Boundary): BoundaryFlows {
  const array = () => new Float64Array(cell.length);
  return { Q: array(), dQdu: array(), dQddw: array() };
}

/** Water leaves at the rate at which the last cell conducts under gravity alone: Q = −K A where the face looks down. */
export function freeDrainage({ cell, area, down }: EdgeFaces): Boundary {
  return {
    name: "drainage",
    isFromPot: false,
    cell,
    evaluate({ K, dK }, _, { Q, dQdu }) {
      for (let k = 0; k < cell.length; k++) {
        Q[k] = -K[cell[k]!]! * area[k]! * down[k]!;
        dQdu[k] = -dK[cell[k]!]! * area[k]! * down[k]!;
      }
    },
  };
}
