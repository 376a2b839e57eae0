import { middleDay } from "../calendar/yearDays.ts";
import type { Plan } from "../plan/plan.ts";
import type { PlanPart, PottedGround } from "../plan/planPart.ts";
import { dualCoefficients, soilCoefficient } from "../plants/cropCoefficient.ts";
import { ageOf, type Grown } from "../plants/growthStages.ts";
import { mulchFactor } from "../plants/mulch.ts";
import { daylightHours } from "../plants/radiation.ts";
import { type DayOfWeather, type ReferenceETo, referenceETo } from "../plants/referenceEvapotranspiration.ts";
import { extraterrestrialRadiation } from "../plants/sun.ts";

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

type MonthAtPlace = PlanPart<"month" | "weather.latitude" | "weather.altitudeMetres" | "weather.months">;

/** Reference evapotranspiration of a plan's month, mm/day: that of its mean day on the fifteenth. */
export function monthETo({ weather, month }: MonthAtPlace): number {
  const { high, low, air } = weather.months[month];
  return dayETo(weather, middleDay(month), { highC: high, lowC: low, air }).EToMm;
}

/** By Penman–Monteith where humidity, wind and sunshine are known, else by Hargreaves from temperatures alone (FAO-56). */
export function dayETo(
  place: Place,
  dayOfYear: number,
  day: Pick<DayOfWeather, "highC" | "lowC" | "air">,
): ReferenceETo {
  return referenceETo({ ...day, ...sunOn(place, dayOfYear) });
}

type Place = Pick<Plan["weather"], "latitude" | "altitudeMetres">;

/** What of a day's reference evapotranspiration follows from place and date. */
export function sunOn({ latitude, altitudeMetres }: Place, dayOfYear: number) {
  return {
    RaMJ: extraterrestrialRadiation(latitude, dayOfYear),
    daylightHours: daylightHours(latitude, dayOfYear),
    altitudeMetres,
  };
}

/**
 * Demand in the plan's month of plants some days after they were at a stage; null where nothing grows. Another ETo stands
 * for other weather.
 */
export function demandOf(plan: PottedGround, stage: Grown | null, day = 0, ETo = monthETo(plan)): Demand {
  const { Kcb, Ke } = stage === null ? BARE_SOIL : dualCoefficients(plan.crop, ageOf(plan.crop.stageDays, stage) + day);
  return {
    ETo,
    transpiration: Kcb * ETo,
    evaporation: Ke * mulchFactor(plan.mulchCover) * ETo,
    openWater: plan.lid ? 0 : OPEN_WATER * ETo,
  };
}

const BARE_SOIL = { Kcb: 0, Ke: soilCoefficient(0, 0) };
