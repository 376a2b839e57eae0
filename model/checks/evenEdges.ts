/** Edges of `count` cells of one size, all in one unit. */
export function evenEdges(from: number, to: number, count: number): Float64Array {
  return Float64Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count);
}
