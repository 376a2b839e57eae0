import { type HighAndLow, meanSaturationPressure, saturationSlope } from "./airHumidity.ts";
import { clearSkyRadiation, netLongwave, netShortwave } from "./radiation.ts";

/** A day, or a month's mean day, with all that Penman–Monteith asks for. */
export interface DayOfAir extends HighAndLow {
  altitudeMetres: number;
  /** Vapour pressure, kPa. */
  ea: number;
  /** At 2 m above the ground, m/s. */
  wind: number;
  /** Radiation above the air and at the ground, MJ/m²/day. */
  RaMJ: number;
  RsMJ: number;
  /** Heat that goes into the ground, G, MJ/m²/day; 0 over a day. */
  soilHeatMJ: number;
}

/**
 * Reference evapotranspiration ETo of short grass by Penman–Monteith, mm/day; FAO-56 (Allen et al. 1998), eq. 6:
 * ETo = (0.408 Δ (Rn − G) + γ 900/(T + 273) u2 (es − ea)) / (Δ + γ (1 + 0.34 u2)). Never below 0.
 */
export function penmanMonteithEToMm(day: DayOfAir): number {
  const T = (day.highC + day.lowC) / 2;
  const Delta = saturationSlope(T);
  const gamma = psychrometricConstant(airPressure(day.altitudeMetres));
  const deficit = meanSaturationPressure(day) - day.ea;
  const sun = 0.408 * Delta * (netRadiation(day) - day.soilHeatMJ);
  const wind = ((gamma * 900) / (T + 273)) * day.wind * deficit;
  return Math.max(0, (sun + wind) / (Delta + gamma * (1 + 0.34 * day.wind)));
}

/** Net radiation Rn of short grass, MJ/m²/day; FAO-56, eq. 40. */
export function netRadiation(day: Omit<DayOfAir, "wind" | "soilHeatMJ">): number {
  const RsoMJ = clearSkyRadiation(day.RaMJ, day.altitudeMetres);
  return netShortwave(day.RsMJ) - netLongwave({ ...day, RsoMJ });
}

/** Pressure P of the air at a height above the sea, kPa; FAO-56, eq. 7. */
export function airPressure(altitudeMetres: number): number {
  return 101.3 * ((293 - 0.0065 * altitudeMetres) / 293) ** 5.26;
}

/** Psychrometric constant γ, kPa/°C, at an air pressure in kPa; FAO-56, eq. 8. */
export function psychrometricConstant(pressure: number): number {
  return 0.665e-3 * pressure;
}
