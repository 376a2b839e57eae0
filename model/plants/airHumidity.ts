/** A day's highest and lowest temperature, °C. */
export interface HighAndLow {
  highC: number;
  lowC: number;
}

/** Pressure e° of the vapour that air of a temperature can hold at most, kPa; FAO-56 (Allen et al. 1998), eq. 11. */
export function saturationPressure(celsius: number): number {
  return 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3));
}

/** Slope Δ of that curve, kPa/°C; FAO-56, eq. 13. */
export function saturationSlope(celsius: number): number {
  return (4098 * saturationPressure(celsius)) / (celsius + 237.3) ** 2;
}

/** A day's mean saturation pressure es, kPa; FAO-56, eq. 12. The curve bends: that of the mean temperature is less. */
export function meanSaturationPressure({ highC, lowC }: HighAndLow): number {
  return (saturationPressure(highC) + saturationPressure(lowC)) / 2;
}

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

/** Vapour pressure ea, kPa, of a day's mean relative humidity, %; FAO-56, eq. 19. */
export function pressureFromMean(day: HighAndLow, humidity: number): number {
  return (humidity / 100) * meanSaturationPressure(day);
}
