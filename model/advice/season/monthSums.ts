import { range } from "d3-array";
import { MONTHS } from "../../calendar/months.ts";
import { DAYS_OF_YEAR, monthIndexOf } from "../../calendar/yearDays.ts";
import { REFILL } from "../../supply/bedSupply.ts";
import type { BedDemand } from "./seasonSupply.ts";

/**
 * Of a mean year, by month, January first: sums over its days, mm and litres; of what plants want and get, and of refills,
 * over those on which they grow. The first year is left out.
 */
export function monthSums({ weather, days }: BedDemand) {
  const years = days.age.length / DAYS_OF_YEAR - 1;
  const sums = MONTHS.map(() => ({ grown: 0, rainMm: 0, EToMm: 0, wanted: 0, fromRain: 0, drawn: 0, refills: 0 }));
  const monthAt = range(DAYS_OF_YEAR).map((t) => monthIndexOf(t + 1));
  for (let t = DAYS_OF_YEAR; t < days.age.length; t++) {
    const month = sums[monthAt[t % DAYS_OF_YEAR]!]!;
    month.rainMm += weather.rainMm[t]!;
    month.EToMm += weather.EToMm[t]!;
    if (days.age[t]! < 0) continue;
    month.grown += 1;
    month.wanted += days.wanted[t]!;
    month.fromRain += days.fromRain[t]!;
    month.drawn += days.drawnLitres[t]!;
    if (days.refill[t] === REFILL.filled || days.refill[t] === REFILL.held) month.refills += 1;
  }
  return sums.map(({ grown, rainMm, EToMm, wanted, fromRain, drawn, refills }) => ({
    grown: grown / years,
    rainMm: rainMm / years,
    EToMm: EToMm / years,
    wanted: wanted / years,
    fromRain: fromRain / years,
    drawn: drawn / years,
    refills: refills / years,
  }));
}
