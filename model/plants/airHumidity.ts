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

/** Vapour pressure ea, kPa, of a day's mean relative humidity, %; FAO-56, eq. 19. */
export function pressureFromMean(day: HighAndLow, humidity: number): number {
  return (humidity / 100) * meanSaturationPressure(day);
}
