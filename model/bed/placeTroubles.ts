/** What is wrong with places that a person has chosen for pots. */
import { type BedOutline, distanceBetween, distanceInside, type Place } from "./outline.ts";

/** cm. */
export interface PlaceLimits {
  /** Least distance between the middles of two pots. */
  spacing: number;
  /** Least distance from the middle of a pot to the bed's edge. */
  edgeDistance: number;
}

/** `pot` and `other` count from 0; `distance`, cm: to the edge (beyond it, where outside), or between the two pots. */
export type PlaceTrouble =
  | { pot: number; kind: "outside" | "nearEdge"; distance: number }
  | { pot: number; kind: "nearPot"; distance: number; other: number };

/** cm; what rounding alone may take from a distance. */
export const ROUNDING = 1e-6;
/** cm; nobody measures finer, and places come in seven figures. */
const FINEST = 0.01;

/** By pot; two pots that stand too near to each other are told once, with the later of them. */
export function placeTroubles(
  outline: BedOutline,
  places: readonly Place[],
  { spacing, edgeDistance }: PlaceLimits,
): PlaceTrouble[] {
  const atEdge = places.flatMap((place, pot) => edgeTroubles(distanceInside(outline, place), pot, edgeDistance));
  return [...atEdge, ...nearPairs(places, spacing)].sort((a, b) => a.pot - b.pot);
}

function edgeTroubles(inside: number, pot: number, edgeDistance: number): PlaceTrouble[] {
  if (inside < -FINEST) return [{ pot, kind: "outside", distance: -inside }];
  return inside < edgeDistance - FINEST ? [{ pot, kind: "nearEdge", distance: Math.max(inside, 0) }] : [];
}

/** Pots in the order of x, each held against those that lie less than the spacing further on. */
function nearPairs(places: readonly Place[], spacing: number): PlaceTrouble[] {
  const order = places.map((place, pot) => ({ place, pot })).sort((a, b) => a.place.x - b.place.x);
  const troubles: PlaceTrouble[] = [];
  for (const [i, { place, pot }] of order.entries())
    for (let k = i + 1, next = order[k]; next && next.place.x - place.x < spacing; next = order[++k]) {
      const distance = distanceBetween(place, next.place);
      if (distance < spacing - FINEST)
        troubles.push({ pot: Math.max(pot, next.pot), kind: "nearPot", distance, other: Math.min(pot, next.pot) });
    }
  return troubles;
}
