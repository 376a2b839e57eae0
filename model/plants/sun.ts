import { MINUTES_PER_DAY } from "../units/factors.ts";

/** MJ/m²/min. */
const SOLAR_CONSTANT = 0.082;

/**
 * Radiation that would reach a level square metre in a day if there were no air, Ra, MJ/m²/day. Latitude in degrees,
 * south negative; day of the year from 1 to 366. FAO-56 (Allen et al. 1998), eq. 21; 0 in the polar night.
 */
export function extraterrestrialRadiation(latitudeDegrees: number, dayOfYear: number): number {
  const latitude = (Math.PI / 180) * latitudeDegrees;
  const delta = solarDeclination(dayOfYear);
  const ws = sunsetHourAngle(latitude, delta);
  const height = ws * Math.sin(latitude) * Math.sin(delta) + Math.cos(latitude) * Math.cos(delta) * Math.sin(ws);
  return (MINUTES_PER_DAY / Math.PI) * SOLAR_CONSTANT * inverseDistance(dayOfYear) * height;
}

/** Inverse relative distance from the earth to the sun, dr; FAO-56, eq. 23. */
export function inverseDistance(dayOfYear: number): number {
  return 1 + 0.033 * Math.cos(yearAngle(dayOfYear));
}

/** Solar declination δ, rad; FAO-56, eq. 24. */
export function solarDeclination(dayOfYear: number): number {
  return 0.409 * Math.sin(yearAngle(dayOfYear) - 1.39);
}

/**
 * Sunset hour angle ωs, rad; latitude and declination in rad; FAO-56, eq. 25. Where the sun does not set, or does not
 * rise, the cosine asked for lies outside −1 to 1: π and 0 are then the whole day and none of it.
 */
export function sunsetHourAngle(latitude: number, declination: number): number {
  const cosine = -Math.tan(latitude) * Math.tan(declination);
  return Math.acos(Math.max(-1, Math.min(1, cosine)));
}

function yearAngle(dayOfYear: number): number {
  return (2 * Math.PI * dayOfYear) / 365;
}
