/** The outline of a bed, seen from above: its size, its corners, and how far from its edge a place lies. */
import { pairs, sum } from "d3-array";
import { first, last } from "../input/lists.ts";

/** cm; x along the bed from its corner A, y across. */
export interface Place {
  x: number;
  y: number;
}

export type BedOutline =
  /** Corners from (0, 0) to (length, width). */
  | { shape: "rectangle"; length: number; width: number }
  /** Centre at (diameter / 2, diameter / 2). */
  | { shape: "circle"; diameter: number }
  /** Its sides do not cross; it may run either way round. */
  | { shape: "polygon"; points: Place[] };

export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** cm². */
export function bedArea(outline: BedOutline): number {
  switch (outline.shape) {
    case "rectangle":
      return outline.length * outline.width;
    case "circle":
      return (Math.PI / 4) * outline.diameter ** 2;
    case "polygon":
      return Math.abs(turnedArea(outline.points));
  }
}

/** Length of the bed's edge, cm. */
export function edgeLength(outline: BedOutline): number {
  if (outline.shape === "circle") return Math.PI * outline.diameter;
  return bedSides(outline).reduce((sum, [a, b]) => sum + distanceBetween(a, b), 0);
}

/** The box about a bed, cm. */
export function bedBounds(outline: BedOutline): Bounds {
  if (outline.shape === "circle") return { x0: 0, y0: 0, x1: outline.diameter, y1: outline.diameter };
  const corners = bedCorners(outline);
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** How far inside the bed's edge a place lies, cm; negative outside. */
export function distanceInside(outline: BedOutline, place: Place): number {
  if (outline.shape === "circle") return outline.diameter / 2 - distanceBetween(place, centreOf(outline));
  const sides = bedSides(outline);
  const toEdge = Math.min(...sides.map(([a, b]) => distanceBetween(place, nearestOnSide(a, b, place))));
  const crossed = sides.filter(([a, b]) => crossesBeyond(a, b, place)).length;
  return crossed % 2 === 1 ? toEdge : -toEdge;
}

/** Middle of a round bed; `diameter` and place in cm. */
export const centreOf = ({ diameter }: { diameter: number }): Place => ({ x: diameter / 2, y: diameter / 2 });

/** Distance between two places, cm. */
export const distanceBetween = (a: Place, b: Place): number => Math.hypot(b.x - a.x, b.y - a.y);

export type Cornered = Exclude<BedOutline, { shape: "circle" }>;

/** The corners, cm, in the order in which they were given; of a rectangle from (0, 0) along its length. */
export function bedCorners(outline: Cornered): Place[] {
  if (outline.shape === "polygon") return outline.points;
  const { length, width } = outline;
  return [
    { x: 0, y: 0 },
    { x: length, y: 0 },
    { x: length, y: width },
    { x: 0, y: width },
  ];
}

/** From each corner to the next; the last one leads back to the first. */
export function bedSides(outline: Cornered): [Place, Place][] {
  const corners = bedCorners(outline);
  return pairs([...corners, first(corners)]);
}

/** Of all places on a side, the nearest. */
export function nearestOnSide(a: Place, b: Place, place: Place): Place {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((place.x - a.x) * dx + (place.y - a.y) * dy) / (dx * dx + dy * dy);
  const share = Math.min(Math.max(along, 0), 1);
  return { x: a.x + share * dx, y: a.y + share * dy };
}

/** Positive where the corners run from x to y: the shoelace formula. */
function turnedArea(points: readonly Place[]): number {
  return sum(pairs([last(points), ...points]), ([a, b]) => (a.x * b.y - b.x * a.y) / 2);
}

/** Whether a line from the place to greater x goes through a side: an odd number of times from inside. */
function crossesBeyond(a: Place, b: Place, { x, y }: Place): boolean {
  return a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x);
}
