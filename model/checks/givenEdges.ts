/** Edges of the soil as outside checks set them: a given flux, or a given head. */
import type { Boundary } from "../flow/boundary.ts";
import type { EdgeFaces } from "../flow/mesh.ts";
import { heldFlows } from "../flow/surface.ts";

/** A given flux into the soil, cm/day. */
export function givenFlux({ cell, area }: EdgeFaces, flux: number): Boundary {
  return {
    name: "flux",
    isFromPot: false,
    cell,
    begin:
      ({ flows: { Q } }) =>
      () =>
        Q.set(area.map((A) => flux * A)),
  };
}

/** A given head, by face or for all: half a cell's flow. A water table is the head 0. */
export function givenHead(faces: Pick<EdgeFaces, "cell" | "T" | "drop">, head: number | Float64Array): Boundary {
  return { name: "head", isFromPot: false, cell: faces.cell, begin: (run) => heldFlows(run, faces, head) };
}
