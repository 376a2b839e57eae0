/** Moving pots, and the corners of a bed of any shape, by hand. */

import { greatest, maxIndex, pairs } from "d3-array";
import type { BedLayout } from "../../../model/public/advice.ts";
import { wallRadiusAt } from "../../../model/public/flow.ts";
import {
  type BedOutline,
  bedBounds,
  bedCorners,
  cornerName,
  distanceBetween,
  entry,
  first,
  layOutPots,
  nearestAllowed,
  type Place,
  type Plan,
} from "../../../model/public/plan.ts";
import { format, type UnitSystem } from "../../../model/public/units.ts";
import { bedScale } from "../../figures/bedFigure.ts";
import type { Settings } from "../../form/controlTypes.ts";
import type { Handle, Handles } from "../../notebook/notebook.ts";

export function bedHandles(bed: BedLayout, units: UnitSystem): Handles {
  const { outline } = bed.plan.bed;
  return {
    project: (place, width) => bedScale(outline, width).project(place),
    placeAt: (pixel, width) => bedScale(outline, width).placeAt(pixel),
    items: [...potHandles(bed, units), ...cornerHandles(bed.plan, units)],
    actions: [
      { label: "Back to the grid", settings: bed.isByHand ? { placesHow: "grid" } : null },
      { label: "Add a pot where there is most room", settings: withOneMore(bed) },
      ...cornerActions(outline),
    ],
  };
}

/** A round bed has no corners. */
function cornerActions(outline: BedOutline): Handles["actions"] {
  if (outline.shape === "circle") return [];
  if (outline.shape === "rectangle") return [{ label: "Move its corners", settings: cornered(bedCorners(outline)) }];
  return [{ label: "Add a corner", settings: withCorner(outline.points) }];
}

const byHand = (places: readonly Place[]): Settings => ({
  placesHow: "hand",
  potPlaces: JSON.stringify(places.map(tidy)),
});

/** Nobody measures finer than a tenth of a millimetre. */
const tidy = ({ x, y }: Place): Place => ({ x: Number(x.toFixed(2)), y: Number(y.toFixed(2)) });

/** A pot may go as near to the edge as its own radius, and as near to another as its width: nearer than planned is told. */
function potHandles({ plan, pots }: BedLayout, units: UnitSystem): Handle[] {
  const radius = wallRadiusAt(plan.pot, 0);
  const limits = { spacing: 2 * radius, edgeDistance: radius };
  return pots.map((place, k) => ({
    name: `Pot ${k + 1}, ${placeName(place, units)}`,
    place,
    radius,
    moved: (to) => byHand(pots.with(k, nearestAllowed(plan.bed.outline, pots, k, to, limits))),
    ...(pots.length > 1 && { removed: () => byHand(pots.toSpliced(k, 1)) }),
  }));
}

const placeName = ({ x, y }: Place, units: UnitSystem) =>
  `${format(x, "length", units)} along, ${format(y, "length", units)} across`;

/** Size of a corner's handle, cm. */
const GRIP = 8;

function cornerHandles({ bed: { outline } }: Plan, units: UnitSystem): Handle[] {
  if (outline.shape !== "polygon") return [];
  const { points } = outline;
  return points.map((place, k) => ({
    name: `Corner ${cornerName(k)} of the bed, ${placeName(place, units)}`,
    place,
    radius: GRIP,
    moved: (to) => cornered(points.with(k, to)),
    ...(points.length > 3 && { removed: () => cornered(points.toSpliced(k, 1)) }),
  }));
}

const cornered = (points: readonly Place[]): Settings => ({
  "bed.shape": "polygon",
  "bed.points": JSON.stringify(points.map(tidy)),
});

/** In the middle of the longest side. */
function withCorner(points: readonly Place[]): Settings {
  const sides = pairs([...points, first(points)]);
  const k = maxIndex(sides, ([from, to]) => distanceBetween(from, to));
  const [from, to] = entry(sides, k);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  return cornered(points.toSpliced(k + 1, 0, middle));
}

/** Distance between the places that are looked at for one more pot, as a share of the pot's radius. */
const LOOK = 0.5;

/** Null where no more pots have room. */
function withOneMore({ plan, pots }: BedLayout): Settings | null {
  const { outline } = plan.bed;
  const radius = wallRadiusAt(plan.pot, 0);
  const step = Math.max(LOOK * radius, Math.sqrt(areaOf(bedBounds(outline)) / 4000));
  const grid = { grid: "square" as const, spacing: step, rowAngle: 0, edgeDistance: radius };
  const room = (place: Place) => Math.min(...pots.map((pot) => distanceBetween(pot, place)));
  const best = greatest(layOutPots(outline, grid), room);
  return best && room(best) >= 2 * radius ? byHand([...pots, best]) : null;
}

const areaOf = ({ x0, x1, y0, y1 }: ReturnType<typeof bedBounds>) => (x1 - x0) * (y1 - y0);
