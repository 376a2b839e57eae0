/** What of a line is drawn, and to which scale. */
import { extent, range } from "d3-array";
import type { FilledLine } from "../../../model/public/advice.ts";
import {
  type BedOutline,
  bedCorners,
  centreOf,
  distanceBetween,
  first,
  type Place,
} from "../../../model/public/plan.ts";

/** Room about all that is drawn; how much of a long main is drawn outside the bed; the tank's half width; cm. */
export const ROOM = 12;
const MAIN_SHOWN = 70;
export const TANK = 27;
/** Pixels for the scale below, and for a name above. */
const BELOW = 34;
const ABOVE = 14;
/** Steps in which the bed's edge is looked for along the main, cm. */
const STEP = 5;

export interface LineView {
  /** cm, from the drawing's left to its right and from its bottom to its top. */
  x: [number, number];
  y: [number, number];
  height: number;
  pixelsPerCm: number;
  /** Where the main begins on the drawing; a long one is cut. */
  mainFrom: Place;
  tank: Place;
  isCut: boolean;
}

/** Pipes' bores and heights move nothing in it. */
export function lineView({ plan, filling }: FilledLine, width: number): LineView {
  const { ways } = filling.bedLine;
  const { from, to } = first(ways);
  const length = distanceBetween(from, to);
  const alongMain = (distance: number): Place => ({
    x: to.x + ((from.x - to.x) * distance) / length,
    y: to.y + ((from.y - to.y) * distance) / length,
  });
  const outline = outlineOf(plan.bed.outline);
  const [left, right] = boundsOf(outline, "x");
  const [bottom, top] = boundsOf(outline, "y");
  const isOutside = ({ x, y }: Place) => x < left || x > right || y < bottom || y > top;
  const overBed = range(0, length, STEP).find((distance) => isOutside(alongMain(distance))) ?? length;
  const shown = Math.min(length, overBed + MAIN_SHOWN);
  const tank = alongMain(shown + TANK);
  const corners = [-TANK, TANK].map((side) => ({ x: tank.x + side, y: tank.y + side }));
  const drawn = [...outline, ...ways.map((way) => way.to), ...corners];
  const [x0, x1] = boundsOf(drawn, "x");
  const [y0, y1] = boundsOf(drawn, "y");
  const pixelsPerCm = width / (x1 - x0 + 2 * ROOM);
  const y: [number, number] = [y0 - ROOM - BELOW / pixelsPerCm, y1 + ROOM + ABOVE / pixelsPerCm];
  return {
    x: [x0 - ROOM, x1 + ROOM],
    y,
    height: pixelsPerCm * (y[1] - y[0]),
    pixelsPerCm,
    mainFrom: alongMain(shown),
    tank,
    isCut: shown < length,
  };
}

const boundsOf = (places: readonly Place[], side: "x" | "y") =>
  extent(places, (place) => place[side]) as [number, number];

/** The bed's edge as a closed line. */
export function outlineOf(outline: BedOutline): Place[] {
  if (outline.shape !== "circle") {
    const corners = bedCorners(outline);
    return [...corners, first(corners)];
  }
  const { x, y } = centreOf(outline);
  const radius = outline.diameter / 2;
  return range(0, 361, 3).map((degrees) => ({
    x: x + radius * Math.cos((degrees * Math.PI) / 180),
    y: y + radius * Math.sin((degrees * Math.PI) / 180),
  }));
}
