import { type TensorMesh, tensorMesh } from "../../model/flow/tensorMesh.ts";

/** A planar row of cells of 1 cm², in which gravity has no part: water enters at `sides.inner`. */
export const horizontalRow = (edges: Iterable<number>): TensorMesh =>
  tensorMesh({ geometry: "planar", rEdges: Float64Array.from(edges), dEdges: Float64Array.of(0, 1) });
