import { cross, pairs, rollup, sum } from "d3-array";
import { entry, present } from "../input/lists.ts";
import type { TensorMesh } from "./tensorMesh.ts";

/** Of each cell of full rings, or of sectors of them: its soil volume over that of the boxes of the grid it is made of. */
export function soilShares({ grid, V }: Pick<TensorMesh, "grid" | "V">): Float64Array {
  const { rEdges, dEdges, cellAt, sectors } = grid;
  const parts = sectors ? sectors.edges.length - 1 : 1;
  const volumes = cross(
    pairs(dEdges),
    pairs(rEdges),
    ([d1, d2], [r1, r2]) => (Math.PI * (r2 ** 2 - r1 ** 2) * (d2 - d1)) / parts,
  );
  const whole = rollup(
    cellAt.entries(),
    (boxes) => sum(boxes, ([box]) => entry(volumes, box % volumes.length)),
    ([, cell]) => cell,
  );
  return V.map((volume, cell) => volume / present(whole.get(cell), `cell ${cell}`));
}
