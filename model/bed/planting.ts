/** Where plants stand about the pots of a bed. */
import { range } from "d3-array";
import { type BedOutline, distanceBetween, distanceInside, type Place } from "./outline.ts";
import { ROUNDING } from "./placeTroubles.ts";

/** cm; `inner` and `outer` are the limits of the sowing band from a pot's wall. */
export interface Planting {
  inner: number;
  outer: number;
  plantSpacing: number;
  /** Of the pot at the surface. */
  potRadius: number;
}

/** Turns of a ring of plants that are tried, of which the one that holds most is taken: our own choice. */
const TRIED_TURNS = 12;

/**
 * Plants in rings about each pot, pot by pot: in the bed, at least `plantSpacing` apart, and within the band of the
 * nearest pot, so none stands in a pot or too near to one. The rings of one pot stand a plant's spacing apart, in the
 * midst of its band. Where bands overlap, the pots that come first have more plants.
 */
export function plantPlaces(outline: BedOutline, pots: readonly Place[], planting: Planting): Place[] {
  const { inner, outer, plantSpacing, potRadius } = planting;
  const planted: Place[] = [];
  for (const pot of pots) {
    const near = nearTo(pot, pots, 2 * (potRadius + outer));
    for (const radius of ringRadii(planting)) {
      const taken = nearTo(pot, planted, radius + plantSpacing);
      const isFree = (place: Place) =>
        distanceInside(outline, place) >= 0 &&
        near.every((other) => distanceBetween(other, place) >= potRadius + inner - ROUNDING) &&
        taken.every((plant) => distanceBetween(plant, place) >= plantSpacing - ROUNDING);
      const rings = range(TRIED_TURNS).map((turn) =>
        ring(pot, radius, plantSpacing, turn / TRIED_TURNS).filter(isFree),
      );
      planted.push(...rings.reduce((most, ring) => (ring.length > most.length ? ring : most)));
    }
  }
  return planted;
}

const nearTo = (place: Place, others: readonly Place[], reach: number) =>
  others.filter((other) => distanceBetween(other, place) < reach + ROUNDING);

/** Radii about the pot's axis. */
function ringRadii({ inner, outer, plantSpacing, potRadius }: Planting): number[] {
  if (outer < inner) return [];
  const steps = Math.floor((outer - inner) / plantSpacing + ROUNDING);
  const first = potRadius + (inner + outer - steps * plantSpacing) / 2;
  return range(steps + 1).map((i) => first + i * plantSpacing);
}

/** As many places on a circle as stand so far apart, evenly; turned by a share of the way from one to the next. */
function ring(pot: Place, radius: number, plantSpacing: number, turn: number): Place[] {
  const halfChord = plantSpacing / (2 * radius);
  const count = halfChord > 1 ? 1 : Math.max(Math.floor(Math.PI / Math.asin(halfChord) + ROUNDING), 1);
  return range(count).map((i) => {
    const angle = (2 * Math.PI * (i + turn)) / count;
    return { x: pot.x + radius * Math.cos(angle), y: pot.y + radius * Math.sin(angle) };
  });
}
