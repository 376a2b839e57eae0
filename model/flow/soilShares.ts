import { rollup, sum } from "d3-array";
import type { TensorMesh } from "./tensorMesh.ts";

/** Of each cell of full rings, or of sectors of them: its soil volume over that of the boxes of the grid it is made of. */
export function soilShares({ grid, cellCount, V }: Pick<TensorMesh, "grid" | "cellCount" | "V">): Float64Array {
  const { rEdges, dEdges, cellAt, sectors } = grid;
  const columns = rEdges.length - 1;
  const rows = dEdges.length - 1;
  const parts = sectors ? sectors.edges.length - 1 : 1;
  const boxVolume = (box: number) => {
    const [i, j] = [box % columns, Math.floor(box / columns) % rows];
    return (Math.PI * (rEdges[i + 1]! ** 2 - rEdges[i]! ** 2) * (dEdges[j + 1]! - dEdges[j]!)) / parts;
  };
  const whole = rollup(
    cellAt.keys(),
    (boxes) => sum(boxes, boxVolume),
    (box) => cellAt[box]!,
  );
  return Float64Array.from({ length: cellCount }, (_, c) => V[c]! / whole.get(c)!);
}
