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
  const edges = [from];
  for (const size of ordered) edges.push(edges.at(-1)! + size * scale);
  edges[edges.length - 1] = to;
  return edges;
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

/** `count` cells of one size. */
export function evenEdges(from: number, to: number, count: number): Float64Array {
  return Float64Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count);
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
  const last = edges.length - 2;
  const size = (i: number) => edges[i + 1]! - edges[i]!;
  const isAtWall = (i: number) => walls.some((wall) => Math.abs(wall - edges[i]!) < 1e-9);
  return Float64Array.from({ length: last + 1 }, (_, i) => {
    const middle = (edges[i]! + edges[i + 1]!) / 2;
    if (i === 0 || i === last) return middle;
    return middle - (size(i + 1) - (isAtWall(i) ? 0 : size(i - 1))) / 16;
  });
}
