/** A roof that rain runs off into a tank. */
export interface Catchment {
  /** m², as seen from above. */
  area: number;
  /** Share of the rain that runs off, 0 to 1. */
  runoff: number;
  /** Let go of each rain after a dry day, mm. */
  firstFlushMm: number;
}

/**
 * Litres that reach the tank on each of some days of rain, mm: C A (P − F), with 1 mm on 1 m² = 1 L. The first flush F is
 * lost on a wet day after a dry one, for a diverter empties itself in between (our own choice); the day before the first
 * counts as dry.
 */
export function roofLitres(rainMm: ArrayLike<number>, { area, runoff, firstFlushMm }: Catchment): Float64Array {
  return Float64Array.from(rainMm, (mm, t) => {
    const flush = t === 0 || rainMm[t - 1] === 0 ? firstFlushMm : 0;
    return runoff * area * Math.max(mm - flush, 0);
  });
}
