import { entry } from "../input/lists.ts";
import type { Ground } from "./ground.ts";
import type { Room } from "./kernel/kernel.ts";
import type { Mesh } from "./mesh.ts";
import type { MeshKernel } from "./meshKernel.ts";

/**
 * Faces between two soils. The pressure head is one at the interface, while K, φ and θ jump; both soils carry the same
 * water from cell a to cell b,
 *
 *   Q = −Ta [φa(hf) − φa(a) + (da − df) K̄a] = Tb [φb(hf) − φb(b) + (db − df) K̄b],
 *
 * from which Newton's method eliminates the head hf at the face, as at the pot's wall. Takes their T out of the other
 * faces' loop; what it gives adds their flows.
 */
export function layerInterfaces(mesh: Mesh, ground: Ground, { faces, loops }: MeshKernel, room: Room): () => void {
  const { a, b, T, drop } = mesh.faces;
  const found = T.map((_, f) => f).filter((f) => ground.layerOf(entry(a, f)) !== ground.layerOf(entry(b, f)));
  const numbers = Int32Array.from(found);
  const shares = found.map((f) => shareBefore(mesh, ground, f));
  const Ta = found.map((f, k) => entry(T, f) / entry(shares, k));
  const Tb = found.map((f, k) => entry(T, f) / (1 - entry(shares, k)));
  const dropA = found.map((f, k) => -entry(shares, k) * entry(drop, f));
  const dropB = found.map((f, k) => (1 - entry(shares, k)) * entry(drop, f));
  // The heads found last, where the next searches start; without effect on where they end.
  const hFace = found.map(() => Number.NaN);
  const lists = room.numbers([Ta, Tb, dropA, dropB, hFace].flatMap((list) => [...list])).at;
  const places = room.wholes(numbers).at;
  for (const f of numbers) faces.T[f] = 0;
  return () => loops.addInterfaces(numbers.length, places, lists);
}

/** Share of the way from a's centre to b's that lies in a's soil; half for a face that stands beside the interface. */
function shareBefore({ faces, dCell }: Mesh, ground: Ground, f: number): number {
  const [a, b] = [entry(faces.a, f), entry(faces.b, f)];
  const share = (ground.bottomBetween(a, b) - entry(dCell, a)) / entry(faces.drop, f);
  return share > 0.05 && share < 0.95 ? share : 0.5;
}
