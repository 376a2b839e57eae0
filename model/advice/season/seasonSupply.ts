/** Whether roof and tanks carry a bed through its season: one long run of days, read year by year. */

import { range, sum } from "d3-array";
import { DAYS_OF_YEAR, monthIndexOf } from "../../calendar/yearDays.ts";
import { entry } from "../../input/lists.ts";
import type { PlanPart } from "../../plan/planPart.ts";
import { usableShare, waterSurface } from "../../plan/planSupply.ts";
import { referenceETo } from "../../plants/referenceEvapotranspiration.ts";
import { potLitres } from "../../pot/buildPot.ts";
import { sunOn } from "../../problems/demand.ts";
import { type BedSupply, type SupplyDays, supplyBed } from "../../supply/bedSupply.ts";
import { roofLitres } from "../../supply/roof.ts";
import type { Tanks } from "../../supply/tanks.ts";
import { CM2_PER_M2 } from "../../units/factors.ts";
import type { DayWeather } from "../../weather/dayWeather.ts";
import type { BedDays, BedWeather } from "./seasonDemand.ts";

/** Rain and reference evapotranspiration of whole years on end, mm by day. */
export function bedWeather(
  { weather }: PlanPart<"weather.latitude" | "weather.altitudeMetres">,
  years: readonly (readonly DayWeather[])[],
): BedWeather {
  const sun = range(1, DAYS_OF_YEAR + 1).map((day) => sunOn(weather, day));
  const days = years.flat();
  return {
    rainMm: Float64Array.from(days, ({ rainMm }) => rainMm),
    EToMm: Float64Array.from(days, (day, t) => referenceETo({ ...day, ...entry(sun, t % DAYS_OF_YEAR) }).EToMm),
  };
}

/** What a bed of so many pots asks for in some years of weather. */
export interface BedDemand {
  weather: BedWeather;
  days: BedDays;
  pots: number;
}

/** The parts of a plan that feed its pots. */
export const POT_SUPPLY = ["pot", "roof", "tank", "spareTanks", "topUp", "line"] as const;

export type PotSupply = PlanPart<(typeof POT_SUPPLY)[number]>;

/** What may be other than in the plan. */
export interface SupplyChanges {
  /** cm². */
  roofArea?: number;
  /** Of the tank that feeds the bed. */
  litres?: number;
  useComes?: Tanks["useComes"];
}

/** The plan's pots, fed from its tanks in some weather, from empty tanks on; litres by day. */
export function seasonSupply(
  plan: PotSupply,
  { weather, days, pots }: BedDemand,
  changes: SupplyChanges = {},
): BedSupply {
  const { roof, tank } = plan;
  const { roofArea = roof.area, litres = tank.litres } = changes;
  const own = { ...tank, litres };
  const rainOnRoof = roofLitres(weather.rainMm, {
    area: roofArea / CM2_PER_M2,
    runoff: roof.runoff,
    firstFlushMm: roof.firstFlushMm,
  });
  const open = tank.lid ? 0 : waterSurface(own) / CM2_PER_M2;
  const series: SupplyDays = {
    inflow: open > 0 ? rainOnRoof.map((litres, t) => litres + open * entry(weather.rainMm, t)) : rainOnRoof,
    evaporation:
      open > 0
        ? Float64Array.from(weather.EToMm, (ETo) => OPEN_WATER * open * ETo)
        : new Float64Array(rainOnRoof.length),
    drawn: days.drawnLitres,
    refill: days.refill,
  };
  const group = { count: pots, capacity: potLitres(plan.pot), share: 1 };
  return supplyBed(tanksOf(plan, litres, changes.useComes), [group], series);
}

/** Kc of water less than 2 m deep, FAO-56 Table 12 (from memory). */
const OPEN_WATER = 1.05;

/**
 * Of the tank that feeds the bed only what can run to the pots. Where a day's use may come before its rain or after it, it
 * comes after, and finds less: our own choice.
 */
export function tanksOf(plan: PotSupply, litres: number, useComes: Tanks["useComes"] = "after spilling"): Tanks {
  const { count, litres: spare, transferLitres } = plan.spareTanks ?? { count: 0, litres: 0, transferLitres: 0 };
  return {
    capacity: [usableShare(plan) * litres, ...new Array<number>(count).fill(spare)],
    transfer: transferLitres,
    topUp: plan.topUp,
    useComes,
  };
}

/** One year of a run, from 1 January; litres for the whole bed. */
export interface SupplyYear {
  /** Asked of the tank. */
  asked: number;
  supplied: number;
  /** What the pots could not give for want of water in the tank. */
  short: number;
  /** Days on which they could not, and the months, 0 to 11, that have such days. */
  shortDays: number;
  shortMonths: ReadonlySet<number>;
  /** In the tanks at the end of each day. */
  stored: Float64Array;
}

/** Year by year, without the first, in which the tanks begin empty. */
export function supplyYears(supply: BedSupply, firstCounted = 1): SupplyYear[] {
  const years = supply.stored.length / DAYS_OF_YEAR;
  return range(firstCounted, years).map((year) => {
    const of = (values: Float64Array) => values.subarray(year * DAYS_OF_YEAR, (year + 1) * DAYS_OF_YEAR);
    const short = of(supply.short);
    const shortOn = range(DAYS_OF_YEAR).filter((day) => entry(short, day) > 0);
    return {
      asked: sum(of(supply.asked)),
      supplied: sum(of(supply.supplied)),
      short: sum(short),
      shortDays: shortOn.length,
      shortMonths: new Set(shortOn.map((day) => monthIndexOf(day + 1))),
      stored: of(supply.stored),
    };
  });
}

/** Share of years, but for the first, in which the pots never lack water of the tank. */
export function carriedShare({ short }: Pick<BedSupply, "short">, firstCounted = 1): number {
  const years = range(firstCounted, short.length / DAYS_OF_YEAR);
  const isCarried = (year: number) =>
    !short.subarray(year * DAYS_OF_YEAR, (year + 1) * DAYS_OF_YEAR).some((litres) => litres > 0);
  return years.filter(isCarried).length / years.length;
}
