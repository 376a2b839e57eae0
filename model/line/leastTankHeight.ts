/** How high the tank must stand so that the last pot is full in time. */
import { type Fill, fillPots } from "./filling.ts";
import type { Filling } from "./fillRates.ts";

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

/**
 * The lowest height of the tank's outlet, found by halving, to a millimetre on the safe side. Pipes keep their lengths
 * and places; a higher tank never fills a pot later, unless it runs empty on pots that run over.
 */
export function leastTankHeight(filling: Filling, { seconds, least, most }: HeightSearch): LeastHeight {
  const fillFrom = (bottom: number) => fillPots({ ...filling, tank: { ...filling.tank, bottom }, maxSeconds: seconds });
  let fill = fillFrom(most);
  if (fill.status !== "all full") return { height: null, fill };
  let [low, high] = [least, most];
  const lowest = fillFrom(least);
  if (lowest.status === "all full") return { height: least, fill: lowest };
  while (high - low > NEAR_ENOUGH) {
    const middle = (low + high) / 2;
    const tried = fillFrom(middle);
    if (tried.status === "all full") [high, fill] = [middle, tried];
    else low = middle;
  }
  return { height: high, fill };
}
