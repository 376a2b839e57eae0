import type { Room } from "./kernel/kernel.ts";
import type { EdgeFaces } from "./mesh.ts";
import type { MeshKernel } from "./meshKernel.ts";
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
  /** Head at which a cell is so dry, or so wet, that the flow ends; see `Assembly.giveBack`. */
  readonly endHead?: number;
  /** Begins a run; what it gives fills the flows at a moment. */
  begin(run: EdgeRun): (pot: PotState, moment: Moment) => void;
}

/** What an edge works with in one run. */
export interface EdgeRun {
  kernel: MeshKernel;
  room: Room;
  flows: BoundaryFlows;
  /** Count and address of the cells, and address of the flows, as the loops ask for them. */
  places: readonly [count: number, cells: number, flows: number];
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
  /** Of all faces: the flow, and its derivative with respect to the level. */
  sums: Float64Array;
}

/** Flows of an edge in the kernel's memory: three lists by face, and the sums. */
export function edgeRun(kernel: MeshKernel, room: Room, { cell }: Boundary): EdgeRun {
  const count = cell.length;
  const { at, values } = room.numbers(3 * count + 2);
  values.fill(0);
  const [Q, dQdu, dQddw] = [0, 1, 2].map((k) => values.subarray(k * count, (k + 1) * count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const flows = { Q, dQdu, dQddw, sums: values.subarray(3 * count) };
  return { kernel, room, flows, places: [count, room.wholes(cell).at, at] };
}

/** Water leaves at the rate at which the last cell conducts under gravity alone: Q = −K A where the face looks down. */
export function freeDrainage({ cell, area, down }: EdgeFaces): Boundary {
  return {
    name: "drainage",
    isFromPot: false,
    cell,
    begin({ kernel, flows: { Q, dQdu } }) {
      const { K, dK } = kernel.cells;
      return () => {
        for (let k = 0; k < cell.length; k++) {
          Q[k] = -K[cell[k]!]! * area[k]! * down[k]!;
          dQdu[k] = -dK[cell[k]!]! * area[k]! * down[k]!;
        }
      };
    },
  };
}
