import type { Mesh } from "./mesh.ts";

/** For each place in the elimination order: the cell, and its neighbours still to come at that moment. */
export interface Elimination {
  order: Int32Array;
  /** Later neighbours of order[p], fill included, by cell number. */
  later: Int32Array[];
}

/** Degree of an eliminated cell. */
const GONE = 2 ** 30;

/**
 * Minimum-degree order (Tinney & Walker 1967, Proc. IEEE 55:1801-1809, their second scheme): eliminate the cell with
 * the fewest neighbours, join those to each other, repeat. Ties go to the cell farther from the pot: cells that the water
 * has not reached are eliminated first and pass nothing on.
 */
export function minimumDegreeOrder(mesh: Mesh, distance: Float64Array): Elimination {
  const n = mesh.cellCount;
  const neighbours = adjacency(mesh);
  const byDistance = Int32Array.from({ length: n }, (_, i) => i).sort((i, j) => distance[j]! - distance[i]!);
  const degree = Int32Array.from(neighbours, ({ length }) => length);
  const stamp = new Int32Array(n).fill(-1);
  const order = new Int32Array(n);
  const later: Int32Array[] = [];
  for (let p = 0; p < n; p++) {
    const cell = fewest(byDistance, degree);
    order[p] = cell;
    degree[cell] = GONE;
    const clique = neighbours[cell]!;
    later.push(Int32Array.from(clique));
    for (const i of clique) {
      neighbours[i] = joined(neighbours[i]!, clique, i, cell, stamp);
      degree[i] = neighbours[i]!.length;
    }
  }
  return { order, later };
}

function adjacency({ cellCount, faces }: Mesh): number[][] {
  const neighbours: number[][] = Array.from({ length: cellCount }, () => []);
  for (let f = 0; f < faces.a.length; f++) {
    const [a, b] = [faces.a[f]!, faces.b[f]!];
    if (neighbours[a]!.includes(b)) continue;
    neighbours[a]!.push(b);
    neighbours[b]!.push(a);
  }
  return neighbours;
}

function fewest(candidates: Int32Array, degree: Int32Array): number {
  let best = candidates[0]!;
  for (let k = 1; k < candidates.length; k++) if (degree[candidates[k]!]! < degree[best]!) best = candidates[k]!;
  return best;
}

/** Neighbours of i once `gone` is eliminated and its neighbours (`clique`) are joined to each other. */
function joined(own: number[], clique: number[], i: number, gone: number, stamp: Int32Array): number[] {
  const result: number[] = [];
  for (const j of own) {
    if (j === gone) continue;
    stamp[j] = i;
    result.push(j);
  }
  for (const j of clique) if (j !== i && stamp[j] !== i) result.push(j);
  for (const j of own) stamp[j] = -1;
  return result;
}
