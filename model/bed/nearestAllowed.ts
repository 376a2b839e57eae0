/** Where a pot may go that is moved by hand. */
import { entry } from "../input/lists.ts";
import {
  type BedOutline,
  bedBounds,
  bedCorners,
  bedSides,
  centreOf,
  distanceBetween,
  distanceInside,
  nearestOnSide,
  type Place,
} from "./outline.ts";
import { type PlaceLimits, ROUNDING } from "./placeTroubles.ts";

/**
 * Of all places that keep the limits, the nearest to where one pot (`index` in `places`) is wanted; where none does, the
 * place it has. The nearest place is the wanted one, or lies on a limit: a line beside a side of the bed, a circle about a
 * corner or about another pot; or where two of these cross. Only limits near the wanted place are looked at, then those
 * further on, until the nearest is found.
 */
export function nearestAllowed(
  outline: BedOutline,
  places: readonly Place[],
  index: number,
  wanted: Place,
  limits: PlaceLimits,
): Place {
  const others = places.filter((_, i) => i !== index);
  const isAllowed = (place: Place) =>
    distanceInside(outline, place) >= limits.edgeDistance - ROUNDING &&
    others.every((other) => distanceBetween(other, place) >= limits.spacing - ROUNDING);
  if (isAllowed(wanted)) return wanted;
  const curves = limitCurves(outline, others, limits);
  const { x0, y0, x1, y1 } = bedBounds(outline);
  const farthest = Math.hypot(x1 - x0, y1 - y0) + Math.max(0, -distanceInside(outline, wanted));
  for (let reach = limits.spacing; reach < 2 * farthest; reach *= 1.25) {
    const near = curves.filter((curve) => distanceBetween(nearestOn(curve, wanted), wanted) <= reach);
    const found = nearestFirst([...near.map((curve) => nearestOn(curve, wanted)), ...crossings(near)], wanted).find(
      isAllowed,
    );
    if (found !== undefined && distanceBetween(found, wanted) <= reach) return found;
  }
  return entry(places, index);
}

type Curve = { kind: "circle"; centre: Place; radius: number } | { kind: "line"; a: Place; b: Place };

function limitCurves(outline: BedOutline, others: readonly Place[], { spacing, edgeDistance }: PlaceLimits): Curve[] {
  const circle = (centre: Place, radius: number): Curve => ({ kind: "circle", centre, radius });
  const aboutPots = others.map((other) => circle(other, spacing));
  if (outline.shape === "circle")
    return [circle(centreOf(outline), Math.max(outline.diameter / 2 - edgeDistance, 0)), ...aboutPots];
  const aboutCorners = bedCorners(outline).map((corner) => circle(corner, edgeDistance));
  return [...bedSides(outline).flatMap(([a, b]) => linesBeside(a, b, edgeDistance)), ...aboutCorners, ...aboutPots];
}

/** On both sides of a side of the bed, for a bed may run either way round. */
function linesBeside(a: Place, b: Place, distance: number): Curve[] {
  const share = distance / distanceBetween(a, b);
  const [nx, ny] = [(a.y - b.y) * share, (b.x - a.x) * share];
  const moved = ({ x, y }: Place, way: number) => ({ x: x + way * nx, y: y + way * ny });
  return [1, -1].map((way) => ({ kind: "line", a: moved(a, way), b: moved(b, way) }));
}

function nearestOn(curve: Curve, place: Place): Place {
  if (curve.kind === "line") return nearestOnSide(curve.a, curve.b, place);
  const away = distanceBetween(curve.centre, place);
  const { x, y } = away > 0 ? place : { x: curve.centre.x + 1, y: curve.centre.y };
  const share = curve.radius / (away > 0 ? away : 1);
  return { x: curve.centre.x + (x - curve.centre.x) * share, y: curve.centre.y + (y - curve.centre.y) * share };
}

const nearestFirst = (places: readonly Place[], wanted: Place) =>
  places.toSorted((a, b) => distanceBetween(a, wanted) - distanceBetween(b, wanted));

function crossings(curves: readonly Curve[]): Place[] {
  return curves.flatMap((some, i) => curves.slice(i + 1).flatMap((other) => crossing(some, other)));
}

function crossing(some: Curve, other: Curve): Place[] {
  if (some.kind === "line") return other.kind === "line" ? lineAndLine(some, other) : circleAndLine(other, some);
  return other.kind === "line" ? circleAndLine(some, other) : circleAndCircle(some, other);
}

type Line = Extract<Curve, { kind: "line" }>;
type Circle = Extract<Curve, { kind: "circle" }>;

function lineAndLine({ a, b }: Line, { a: c, b: d }: Line): Place[] {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const across = ux * vy - uy * vx;
  if (across === 0) return [];
  const share = ((c.x - a.x) * vy - (c.y - a.y) * vx) / across;
  return [{ x: a.x + share * ux, y: a.y + share * uy }];
}

function circleAndLine({ centre, radius }: Circle, { a, b }: Line): Place[] {
  const length = distanceBetween(a, b);
  const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const along = (centre.x - a.x) * ux + (centre.y - a.y) * uy;
  const foot = { x: a.x + along * ux, y: a.y + along * uy };
  return bothWays(foot, { x: ux, y: uy }, radius ** 2 - distanceBetween(centre, foot) ** 2);
}

function circleAndCircle({ centre, radius }: Circle, other: Circle): Place[] {
  const apart = distanceBetween(centre, other.centre);
  if (apart === 0) return [];
  const [ux, uy] = [(other.centre.x - centre.x) / apart, (other.centre.y - centre.y) / apart];
  const along = (apart ** 2 + radius ** 2 - other.radius ** 2) / (2 * apart);
  const foot = { x: centre.x + along * ux, y: centre.y + along * uy };
  return bothWays(foot, { x: -uy, y: ux }, radius ** 2 - along ** 2);
}

function bothWays(foot: Place, way: Place, square: number): Place[] {
  if (square < 0) return [];
  const far = Math.sqrt(square);
  return [1, -1].map((side) => ({ x: foot.x + side * far * way.x, y: foot.y + side * far * way.y }));
}
