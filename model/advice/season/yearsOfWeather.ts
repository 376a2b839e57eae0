import type { Plan } from "../../plan/plan.ts";
import type { DayWeather } from "../../weather/dayWeather.ts";
import { weatherYears } from "../../weather/generator.ts";

/** Years of weather drawn by chance, after one in which the tanks fill; one draw for everyone. */
const DRAWN = { years: 61, seed: 1 };
/** A record of fewer years says too little of bad ones: years are then drawn from its months. Our own choice. */
const LEAST_RECORDED = 5;

export interface YearsOfWeather {
  years: DayWeather[][];
  isRecorded: boolean;
}

/**
 * Years of days to work the supply out with: recorded, or drawn from months. The first one is there for the tanks to
 * fill in.
 */
export function yearsFor({ months, years }: Pick<Plan["weather"], "months" | "years">): YearsOfWeather {
  const [first] = years ?? [];
  if (years && first && years.length >= LEAST_RECORDED) return { years: [first, ...years], isRecorded: true };
  return { years: weatherYears(months, DRAWN), isRecorded: false };
}
