/** The linear problem of one Newton step, by one sweep up the tree and one down: cost goes with the number of pieces. */
// In the loops over pieces and outlets `!` stands in place of a check, which would cost time.

export interface LinearTree {
  /** Per piece; −1: the tank. Parents come before children. */
  parents: Int32Array;
  /** Per outlet: the piece at whose end it is. */
  outlets: Int32Array;
  /** Per piece, s/m²: how its head loss grows with its flow. */
  slopes: Float64Array;
  /** Per outlet, s/m², greater than 0. */
  outletSlopes: Float64Array;
  /** Per outlet: 1 where its flow may change. */
  free: Uint8Array;
}

/**
 * Changes of the outlets' flows d, m³/s, after which each free outlet loses `wanted` m of head more than before, along
 * all of its path: Σ slope · D + outletSlope · d = wanted, with D the change of a piece's flow. The others' are 0.
 *
 * At a node the change of flow is linear in the change δ of the head lost before it, D = a − g δ. A piece in front of it
 * makes that (a − g δ)/(1 + g s) in terms of the head lost before the piece.
 */
export function flowChanges(tree: LinearTree, wanted: Float64Array): Float64Array {
  const { parents, outlets, slopes, outletSlopes, free } = tree;
  const n = parents.length;
  const a = new Float64Array(n);
  const g = new Float64Array(n);
  outlets.forEach((p, k) => {
    if (!free[k]) return;
    a[p]! += wanted[k]! / outletSlopes[k]!;
    g[p]! += 1 / outletSlopes[k]!;
  });
  for (let p = n - 1; p >= 0; p--) {
    const shrink = 1 + g[p]! * slopes[p]!;
    a[p]! /= shrink;
    g[p]! /= shrink;
    const parent = parents[p]!;
    if (parent < 0) continue;
    a[parent]! += a[p]!;
    g[parent]! += g[p]!;
  }
  const lost = new Float64Array(n);
  const changes = new Float64Array(n);
  for (let p = 0; p < n; p++) {
    const parent = parents[p]!;
    const before = parent < 0 ? 0 : lost[parent]!;
    changes[p] = a[p]! - g[p]! * before;
    lost[p] = before + slopes[p]! * changes[p]!;
  }
  // What leaves at a piece's end is what comes less what goes on: exact where nothing goes on, however small its slope.
  const own = changes.slice();
  for (let p = 0; p < n; p++) if (parents[p]! >= 0) own[parents[p]!]! -= changes[p]!;
  return Float64Array.from(outlets, (p, k) => (free[k] ? own[p]! : 0));
}
