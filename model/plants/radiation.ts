import { HOURS_PER_DAY } from "../units/factors.ts";
import type { HighAndLow } from "./airHumidity.ts";
import { solarDeclination, sunsetHourAngle } from "./sun.ts";

/** Hours from sunrise to sunset, N; latitude in degrees, south negative; FAO-56 (Allen et al. 1998), eq. 34. */
export function daylightHours(latitudeDegrees: number, dayOfYear: number): number {
  const latitude = (Math.PI / 180) * latitudeDegrees;
  return (HOURS_PER_DAY / Math.PI) * sunsetHourAngle(latitude, solarDeclination(dayOfYear));
}

/**
 * Radiation Rs that reaches the ground, MJ/m²/day, by hours of sunshine; Ra is that above the air. FAO-56, eq. 35 with
 * its a = 0.25 and b = 0.50. More sun than the day is long counts as a day without a cloud.
 */
export function radiationOfSunshine(RaMJ: number, sunHours: number, daylight: number): number {
  const share = sunHours < daylight ? sunHours / daylight : 1;
  return (0.25 + 0.5 * share) * RaMJ;
}

/** Radiation Rso of a day without a cloud, MJ/m²/day; FAO-56, eq. 37. */
export function clearSkyRadiation(RaMJ: number, altitudeMetres: number): number {
  return (0.75 + 2e-5 * altitudeMetres) * RaMJ;
}

/** The share of Rs that short grass does not throw back; FAO-56, eq. 38. */
const TAKEN_UP = 0.77;

/** Net shortwave radiation Rns of short grass, MJ/m²/day; FAO-56, eq. 38. */
export function netShortwave(RsMJ: number): number {
  return TAKEN_UP * RsMJ;
}

/** MJ/K⁴/m²/day. */
const STEFAN_BOLTZMANN = 4.903e-9;
const KELVIN_AT_ZERO = 273.16;

export interface NightSky extends HighAndLow {
  /** Vapour pressure, kPa. */
  ea: number;
  RsMJ: number;
  RsoMJ: number;
}

/**
 * Net longwave radiation Rnl that the ground loses, MJ/m²/day; FAO-56, eq. 39. In the polar night, where Rso is 0 and
 * nothing tells of clouds, as under a clear sky.
 */
export function netLongwave({ highC, lowC, ea, RsMJ, RsoMJ }: NightSky): number {
  const clearness = RsMJ < RsoMJ ? RsMJ / RsoMJ : 1;
  const fourthPower = ((highC + KELVIN_AT_ZERO) ** 4 + (lowC + KELVIN_AT_ZERO) ** 4) / 2;
  return STEFAN_BOLTZMANN * fourthPower * (0.34 - 0.14 * Math.sqrt(ea)) * (1.35 * clearness - 0.35);
}
