import { entry } from "../input/lists.ts";
import type { Pot } from "../pot/pot.ts";
import type { Boundary } from "./boundary.ts";
import type { WallFaces } from "./tensorMesh.ts";

/**
 * The pot's wall in series with half a cell of soil. The total head inside is −dw everywhere, so that the wall passes
 * q = Kw (d − dw − hf) / wallThickness at an outer face at depth d, whatever its slope; the soil carries the same q from
 * the face to the cell's centre, (T/A) [φ(hf) − φ(h) + (dc − d) K̄]. The face's head hf is eliminated by Newton's method.
 * A stretch that the water line cuts carries water on its wet part, with that part's middle depth. A flat base goes on
 * carrying it below the water line, which only a step that overdraws the pot comes to: were it cut off at once, that step
 * would have no solution.
 */
export function potWall({ cell, area, T, upper, lower, drop }: WallFaces, pot: Pot): Boundary {
  const conductance = pot.wallConductivity / pot.wallThickness;
  return {
    name: "wall",
    isFromPot: true,
    cell,
    begin({ kernel: { loops }, room, flows, places }) {
      const perArea = T.map((value, k) => value / entry(area, k));
      // The heads found last, where the next searches start; without effect on where they end.
      const hFace = new Float64Array(cell.length).fill(Number.NaN);
      const { at } = room.numbers([area, perArea, upper, lower, drop, hFace].flatMap((list) => [...list]));
      return ({ dw, isEmpty }) => {
        if (isEmpty) for (const list of [flows.Q, flows.dQdu, flows.dQddw]) list.fill(0);
        else loops.fillWall(...places, at, conductance, dw);
      };
    },
  };
}

/**
 * Water that a leaking plug lets out through the drain hole in the base: `plugLeak` when the pot is full and the soil
 * below at zero pressure, in proportion to the head across the plug; suction in the soil draws no more.
 */
export function leakingPlug(pot: Pot, cell: number): Boundary {
  const perHead = pot.plugLeak / (pot.emptyDepth - pot.fullDepth);
  return {
    name: "plug",
    isFromPot: true,
    endHead: 0,
    cell: Int32Array.of(cell),
    begin({ kernel: { cells }, flows: { Q, dQdu, dQddw } }) {
      return ({ dw, isEmpty }) => {
        const soilHead = Math.max(entry(cells.h, cell), 0);
        const isOpen = !isEmpty && pot.emptyDepth - dw > soilHead;
        Q[0] = isOpen ? perHead * (pot.emptyDepth - dw - soilHead) : 0;
        dQdu[0] = isOpen && soilHead > 0 ? -perHead * entry(cells.dH, cell) : 0;
        dQddw[0] = isOpen ? -perHead : 0;
      };
    },
  };
}
