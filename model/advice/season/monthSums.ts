import { range, sum } from "d3-array";
import { byMonth } from "../../calendar/months.ts";
import { DAYS_OF_YEAR, daysOf } from "../../calendar/yearDays.ts";
import { entry } from "../../input/lists.ts";
import { REFILL } from "../../supply/bedSupply.ts";
import type { BedDemand } from "./seasonSupply.ts";

/**
 * Of a mean year, by month: sums over its days, mm and litres; of what plants want and get, and of refills, over those on
 * which they grow. The first year is left out.
 */
export function monthSums({ weather, days }: BedDemand) {
  const years = days.age.length / DAYS_OF_YEAR - 1;
  return byMonth((month) => {
    const all = range(1, years + 1).flatMap((year) => daysOf(month).map((day) => year * DAYS_OF_YEAR + day - 1));
    const growing = all.filter((t) => entry(days.age, t) >= 0);
    const isRefill = (t: number) => days.refill[t] === REFILL.filled || days.refill[t] === REFILL.held;
    const mean = (over: readonly number[], values: ArrayLike<number>) => sum(over, (t) => entry(values, t)) / years;
    return {
      grown: growing.length / years,
      rainMm: mean(all, weather.rainMm),
      EToMm: mean(all, weather.EToMm),
      wanted: mean(growing, days.wanted),
      fromRain: mean(growing, days.fromRain),
      drawn: mean(growing, days.drawnLitres),
      refills: growing.filter(isRefill).length / years,
    };
  });
}
