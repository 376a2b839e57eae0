/** Water between freezing and hand-hot. Like all of this room in SI units: `pipe.ts` says so once. */

/** Viscosity at 20 °C, Pa s: Swindells, Coe & Godfrey (1952), from memory. */
const VISCOSITY_20 = 1.002e-3;

const LEAST_CELSIUS = 0;
const MOST_CELSIUS = 60;

/**
 * Kinematic viscosity, m²/s, from 0 to 60 °C; a RangeError outside, where a reading in Fahrenheit is the likely slip.
 * Within 0.5 % of tabled values.
 */
export function kinematicViscosity(celsius: number): number {
  if (!(celsius >= LEAST_CELSIUS && celsius <= MOST_CELSIUS))
    throw new RangeError(`water of ${celsius} °C; it must be between ${LEAST_CELSIUS} and ${MOST_CELSIUS} °C`);
  return dynamicViscosity(celsius) / density(celsius);
}

/**
 * Pa s. Kestin, Sokolov & Wakeham (1978), J. Phys. Chem. Ref. Data 7:941, their correlation relative to 20 °C, from
 * memory: log₁₀(μ/μ₂₀) = (20 − T)/(T + 96) · [1.2364 − 1.37·10⁻³ (20 − T) + 5.7·10⁻⁶ (20 − T)²].
 */
function dynamicViscosity(celsius: number): number {
  const below = 20 - celsius;
  const factor = 1.2364 - 1.37e-3 * below + 5.7e-6 * below ** 2;
  return VISCOSITY_20 * 10 ** ((below / (celsius + 96)) * factor);
}

/** kg/m³, at the air's pressure. Kell (1975), J. Chem. Eng. Data 20:97, from memory. */
function density(celsius: number): number {
  const powers = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
  return powers.reduceRight((sum, coefficient) => sum * celsius + coefficient, 0) / (1 + 16.87985e-3 * celsius);
}
