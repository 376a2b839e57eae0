import { soilCoefficient, waterUse } from "../plants/cropCoefficient.ts";
import { ageOf, type Grown } from "../plants/growthStages.ts";
import { middleDay } from "../plants/months.ts";
import { mulchFactor } from "../plants/mulch.ts";
import { hargreavesEToMm } from "../plants/referenceEvapotranspiration.ts";
import { extraterrestrialRadiation } from "../plants/sun.ts";
import type { Plan } from "./plan.ts";

/** What air and plants ask for on a day, mm. */
export interface Demand {
  /** Reference evapotranspiration: what short, well-watered grass would use. */
  ETo: number;
  /** Of plants with all the water they want. */
  transpiration: number;
  /** Of bare wet soil, shade and mulch allowed for. */
  evaporation: number;
  /** Of the open water in a pot without a lid. */
  openWater: number;
}

/** Kc of water less than 2 m deep, FAO-56 Table 12 (from memory). */
const OPEN_WATER = 1.05;

/** Reference evapotranspiration of a plan's month, mm/day: FAO-56, by Hargreaves from its temperatures. */
export function monthETo({ weather, month }: Pick<Plan, "weather" | "month">): number {
  const { high, low } = weather.months[month];
  const RaMJ = extraterrestrialRadiation(weather.latitude, middleDay(month));
  return hargreavesEToMm({ highC: high, lowC: low, RaMJ });
}

/**
 * Demand in the plan's month of plants some days after they were at a stage; null where nothing grows. Another ETo stands
 * for other weather.
 */
export function demandOf(plan: Plan, stage: Grown | null, day = 0, ETo = monthETo(plan)): Demand {
  const { Kcb, Ke } = stage === null ? BARE_SOIL : waterUse(plan.crop, ageOf(plan.crop.stageDays, stage) + day);
  return {
    ETo,
    transpiration: Kcb * ETo,
    evaporation: Ke * mulchFactor(plan.mulchCover) * ETo,
    openWater: plan.lid ? 0 : OPEN_WATER * ETo,
  };
}

const BARE_SOIL = { Kcb: 0, Ke: soilCoefficient(0, 0) };
