/** A bed turned about its middle, if it is round, or about its corner A. */
import { type BedOutline, bedCorners, centreOf, type Place } from "./outline.ts";

/** The place that stays where it is. */
export const pivotOf = (outline: BedOutline): Place =>
  outline.shape === "circle" ? centreOf(outline) : { x: 0, y: 0 };

/** Degrees from x towards y. */
export function turnedOutline(outline: BedOutline, degrees: number): BedOutline {
  if (outline.shape === "circle") return outline;
  const points = bedCorners(outline).map((corner) => turnedPlace(corner, degrees, pivotOf(outline)));
  return { shape: "polygon", points };
}

/** Degrees from x towards y. */
export function turnedPlace({ x, y }: Place, degrees: number, pivot: Place): Place {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [dx, dy] = [x - pivot.x, y - pivot.y];
  return { x: pivot.x + cos * dx - sin * dy, y: pivot.y + sin * dx + cos * dy };
}
