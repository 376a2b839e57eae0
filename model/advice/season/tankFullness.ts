import { quantileSorted, range } from "d3-array";
import { DAYS_OF_YEAR } from "../../calendar/yearDays.ts";
import { entry, present } from "../../input/lists.ts";
import type { SupplyYear } from "./seasonSupply.ts";

/** How full the tanks are on a day of the year, % of what they hold; reached or passed in 9, 5 and 1 years in ten. */
export interface TankDay {
  day: number;
  low: number;
  middle: number;
  high: number;
}

/** Shares of years below: one in ten, half, nine in ten. */
const SHARES = { low: 0.1, middle: 0.5, high: 0.9 } as const;

/** How full the tanks are on each day of the year, %; `capacity`: of all tanks, litres. */
export function fullness(years: readonly SupplyYear[], capacity: number): TankDay[] {
  return range(DAYS_OF_YEAR).map((t) => {
    const shares = years.map(({ stored }) => (100 * entry(stored, t)) / capacity).sort((a, b) => a - b);
    const at = (share: number) => present(quantileSorted(shares, share), "year of tanks");
    return { day: t + 1, low: at(SHARES.low), middle: at(SHARES.middle), high: at(SHARES.high) };
  });
}
