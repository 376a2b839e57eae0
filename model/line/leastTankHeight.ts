/** How high the tank must stand so that the last pot is full in time. */
import { type Fill, fillPots } from "./filling.ts";
import type { FillProblem } from "./fillRates.ts";

export interface HeightSearch {
  /** All pots are to be full by then. */
  seconds: number;
  /** Heights of the tank's outlet to look between, m. */
  least: number;
  most: number;
}

/** `fill` is the filling from that height, or from `most`, where that does not do either. */
export type LeastHeight = { height: number; fill: Fill } | { height: null; fill: Fill };

/** m: as near as a tank is put up. */
const NEAR_ENOUGH = 0.001;

/** The first rise above `least` that is tried, m. */
const FIRST_RISE = 0.1;

/**
 * The lowest height of the tank's outlet: rises twice each other until one does, then halved, to a millimetre on the safe
 * side. Pipes keep their lengths and places. A higher tank fills pots sooner, but runs more over the rims of those that
 * are full: a small one may then run empty, so that too high may fail. Yields after each filling.
 */
export function* heightSearch(
  filling: FillProblem,
  { seconds, least, most }: HeightSearch,
): Generator<void, LeastHeight> {
  const fillFrom = (bottom: number) => fillPots({ ...filling, tank: { ...filling.tank, bottom }, maxSeconds: seconds });
  let [low, high] = [least, least];
  let fill = fillFrom(high);
  for (let rise = FIRST_RISE; fill.status !== "all full"; rise *= 2) {
    if (high >= most) return { height: null, fill };
    [low, high] = [high, Math.min(least + rise, most)];
    fill = fillFrom(high);
    yield;
  }
  while (high - low > NEAR_ENOUGH) {
    const middle = (low + high) / 2;
    const tried = fillFrom(middle);
    if (tried.status === "all full") [high, fill] = [middle, tried];
    else low = middle;
    yield;
  }
  return { height: high, fill };
}
