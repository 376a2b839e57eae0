import { pressureFromMean } from "./airHumidity.ts";
import { penmanMonteithEToMm } from "./penmanMonteith.ts";
import { radiationOfSunshine } from "./radiation.ts";

/** A day's weather as far as Hargreaves asks for it: temperatures in °C, extraterrestrial radiation in MJ/m²/day. */
export interface DayOfSun {
  highC: number;
  lowC: number;
  RaMJ: number;
}

/** mm of water that 1 MJ/m² evaporates: 1/λ with λ = 2.45 MJ/kg (FAO-56, eq. 20). */
const INVERSE_LATENT_HEAT = 0.408;

/**
 * Reference evapotranspiration ETo of short grass by Hargreaves, mm/day; FAO-56 (Allen et al. 1998), eq. 52:
 * ETo = 0.0023 (Tmean + 17.8) (Tmax − Tmin)^0.5 Ra, with Tmean = (Tmax + Tmin)/2. Never below 0, which frost below
 * −17.8 °C would ask for. For spells of five days or more, where errors of a fifth are usual; too low in wind above
 * 3 m/s and too high in damp air (limits from memory). RangeError for a high below the low.
 */
export function hargreavesEToMm({ highC, lowC, RaMJ }: DayOfSun): number {
  if (!(highC >= lowC))
    throw new RangeError(`the day's high is ${highC} °C; it must not be below its low of ${lowC} °C`);
  const meanC = (highC + lowC) / 2;
  return Math.max(0, 0.0023 * (meanC + 17.8) * Math.sqrt(highC - lowC) * INVERSE_LATENT_HEAT * RaMJ);
}

/** What the air is like beside its temperature: means over a day, or over a month's days. */
export interface Air {
  /** Relative, %. */
  humidity: number;
  /** At 2 m above the ground, m/s. */
  wind: number;
  /** Hours of bright sunshine a day. */
  sunHours: number;
}

/** A day, or a month's mean day; `air` is null where humidity, wind and sunshine are not all known. */
export interface DayOfWeather extends DayOfSun {
  daylightHours: number;
  altitudeMetres: number;
  air: Air | null;
}

export interface ReferenceETo {
  EToMm: number;
  method: "Penman–Monteith" | "Hargreaves";
}

/**
 * Reference evapotranspiration, mm/day, by the better of two ways that the day's weather allows, and which it was:
 * Penman–Monteith (FAO-56, eq. 6) with no heat going into the ground, or Hargreaves, with its RangeError.
 */
export function referenceETo(day: DayOfWeather): ReferenceETo {
  if (day.air === null) return { EToMm: hargreavesEToMm(day), method: "Hargreaves" };
  const { humidity, wind, sunHours } = day.air;
  const ea = pressureFromMean(day, humidity);
  const RsMJ = radiationOfSunshine(day.RaMJ, sunHours, day.daylightHours);
  return { EToMm: penmanMonteithEToMm({ ...day, ea, wind, RsMJ, soilHeatMJ: 0 }), method: "Penman–Monteith" };
}
