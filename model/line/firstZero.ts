/** Where something within a step of time happens. */
import { NoConvergence } from "./noConvergence.ts";

/** A margin this near to 0 is 0. */
export const ROUNDING = 1e-13;
/** Moments apart by less than this share of a step are one. */
const AT_ONCE = 1e-9;
const MOST_TURNS = 50;

/**
 * Regula falsi (Illinois) on the length `h` of a step, to where `margin` falls to 0 between `before` and `after`, or to
 * the first length beyond it that can be told from it. Throws `NoConvergence` where that takes too many turns.
 */
export function firstZero<Tried extends { h: number }>(
  margin: (at: Tried) => number,
  before: Tried,
  after: Tried,
  attempt: (h: number) => Tried,
): Tried {
  let [low, high] = [before, after];
  let [atLow, atHigh] = [margin(low), margin(high)];
  let sameSide = 0;
  for (let k = 0; k < MOST_TURNS; k++) {
    const next = attempt(low.h + ((high.h - low.h) * atLow) / (atLow - atHigh));
    const here = margin(next);
    if (Math.abs(here) <= ROUNDING) return next;
    if (here > 0) {
      [low, atLow] = [next, here];
      sameSide = Math.max(1, sameSide + 1);
      if (sameSide > 1) atHigh /= 2;
    } else {
      [high, atHigh] = [next, here];
      sameSide = Math.min(-1, sameSide - 1);
      if (sameSide < -1) atLow /= 2;
    }
  }
  if (high.h - low.h <= AT_ONCE * high.h) return high;
  throw new NoConvergence(`something happens within ${high.h - low.h} s, but its moment was not found`);
}
