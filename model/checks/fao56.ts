/** Steps of FAO-56 (Allen et al. 1998) that its worked examples take and the planner does not. */
import { type HighAndLow, saturationPressure } from "../plants/airHumidity.ts";

/**
 * Vapour pressure ea, kPa, of the temperature at which dew falls; FAO-56, eq. 14. Where nobody measures humidity, eq. 48
 * takes the night's low for it, which holds about watered ground and is too damp in deserts.
 */
export function pressureFromDewPoint(dewPointC: number): number {
  return saturationPressure(dewPointC);
}

/** How strongly a wet bulb's thermometer is cooled, 1/°C, with air moved past it at some 5 m/s; FAO-56, eq. 16. */
const VENTILATED = 0.000662;

/** Vapour pressure ea, kPa, of a ventilated pair of thermometers, one of them wet, at an air pressure in kPa; eq. 15. */
export function pressureFromWetBulb(dryC: number, wetC: number, airPressure: number): number {
  return saturationPressure(wetC) - VENTILATED * airPressure * (dryC - wetC);
}

/** Vapour pressure ea, kPa, of a day's highest and lowest relative humidity, %; FAO-56, eq. 17. */
export function pressureFromExtremes({ highC, lowC }: HighAndLow, highest: number, lowest: number): number {
  return (saturationPressure(lowC) * highest + saturationPressure(highC) * lowest) / 200;
}

/** Wind at 2 m, m/s, where it is measured at another height above short grass; FAO-56, eq. 47. */
export function windAtTwoMetres(wind: number, heightMetres: number): number {
  return (wind * 4.87) / Math.log(67.8 * heightMetres - 5.42);
}

/** kRs of eq. 50, 1/°C^0.5: inland, and near the sea, where the air of the sea evens out days and nights. */
const RADIATION_BY_RANGE = { inland: 0.16, coast: 0.19 };

/** Radiation Rs that reaches the ground, MJ/m²/day, guessed from the day's range of temperatures; FAO-56, eq. 50. */
export function radiationOfRange(
  RaMJ: number,
  { highC, lowC }: HighAndLow,
  place: keyof typeof RADIATION_BY_RANGE,
): number {
  return RADIATION_BY_RANGE[place] * Math.sqrt(highC - lowC) * RaMJ;
}

/**
 * Heat G that goes into the ground in a month, MJ/m²/day, by the mean temperatures of the months before and after it, °C;
 * FAO-56, eq. 43. Over a day it is taken as 0 (eq. 42).
 */
export function monthsSoilHeat(beforeC: number, afterC: number): number {
  return 0.07 * (afterC - beforeC);
}

/** The same while the month after is not known, by the month's own mean; FAO-56, eq. 44. */
export function monthsSoilHeatSoFar(beforeC: number, ownC: number): number {
  return 0.14 * (ownC - beforeC);
}

/**
 * Ks, the share of full water use left when the root zone lacks a depletion Dr, both in mm:
 * Ks = (TAW − Dr)/((1 − p) TAW), within 0 to 1; FAO-56, eq. 84.
 */
export function stressCoefficient({ TAWMm, DrMm, p }: { TAWMm: number; DrMm: number; p: number }): number {
  return Math.max(0, Math.min(1, (TAWMm - DrMm) / ((1 - p) * TAWMm)));
}
