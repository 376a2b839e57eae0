import { sort } from "d3-array";
import FlatQueue from "flatqueue";
import { entry } from "../input/lists.ts";
import type { Mesh } from "./mesh.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/** For each place in the elimination order: the cell, and its neighbours still to come at that moment. */
export interface Elimination {
  order: Int32Array;
  /** Later neighbours of order[p], fill included, by cell number. */
  later: Int32Array[];
}

/**
 * Minimum-degree order (Tinney & Walker 1967, Proc. IEEE 55:1801-1809, their second scheme): eliminate the cell with
 * the fewest neighbours, join those to each other, repeat. Ties go to the cell farther from the pot: cells that the water
 * has not reached are eliminated first and pass nothing on.
 */
export function minimumDegreeOrder(mesh: Mesh, distance: Float64Array): Elimination {
  const n = mesh.cellCount;
  const neighbours = adjacency(mesh);
  const rank = ranks(distance);
  /** Every cell under each degree that it has had; what is out of date is passed over. */
  const candidates = new FlatQueue<number>();
  const offer = (cell: number) => candidates.push(cell, neighbours[cell]!.length * n + rank[cell]!);
  for (let cell = 0; cell < n; cell++) offer(cell);
  const isGone = new Uint8Array(n);
  const stamp = new Int32Array(n).fill(-1);
  const order: number[] = [];
  const later: Int32Array[] = [];
  const eliminate = (cell: number, rest: number[]) => {
    isGone[cell] = 1;
    order.push(cell);
    later.push(Int32Array.from(rest));
  };
  while (order.length < n) {
    const degree = Math.floor(candidates.peekValue()! / n);
    const cell = candidates.pop()!;
    const clique = neighbours[cell]!;
    if (isGone[cell] || degree !== clique.length) continue;
    eliminate(cell, clique);
    for (const i of clique) neighbours[i] = joined(neighbours[i]!, clique, i, cell, stamp);
    let rest = clique;
    for (const i of clique) {
      if (neighbours[i]!.length > clique.length - 1) continue;
      rest = rest.filter((j) => j !== i);
      eliminate(i, rest);
    }
    for (const i of rest) {
      if (rest !== clique) neighbours[i] = neighbours[i]!.filter((j) => !isGone[j]);
      offer(i);
    }
  }
  return { order: Int32Array.from(order), later };
}

/** Place of each cell by falling distance. */
function ranks(distance: Float64Array): Int32Array {
  const rank = new Int32Array(distance.length);
  const fallen = sort(distance.keys(), (cell) => -entry(distance, cell));
  for (const [place, cell] of fallen.entries()) rank[cell] = place;
  return rank;
}

function adjacency({ cellCount, faces }: Mesh): number[][] {
  const neighbours: number[][] = Array.from({ length: cellCount }, () => []);
  for (const [f, a] of faces.a.entries()) {
    const b = entry(faces.b, f);
    const beside = entry(neighbours, a);
    if (beside.includes(b)) continue;
    beside.push(b);
    entry(neighbours, b).push(a);
  }
  return neighbours;
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
