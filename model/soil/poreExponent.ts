/** Which pore exponents l the conductivity of Mualem may have: see `vanGenuchten`. */
import { type Fault, figures, lowerLimit, type Reader } from "../input/faults.ts";

/** Fits to the soils of Europe keep within these ends (Wösten et al. 1999, Geoderma 90:169-185, from memory). */
export const PORE_EXPONENT = { min: -10, max: 10 };

/** Least d ln K/d ln Se of dry soil: at 1 the last water hangs on rounding, a tenth more keeps clear of it. */
const LEAST_DRY_FALL = 1.1;

/**
 * Least −d ln K/d ln |h| of dry soil. At 1 the integral φ of K from −∞ has no end; at this, what lies beyond a head of
 * −1e7 cm is a twentieth of φ(0) at most, and less than a thousandth where α is above 0.05 1/cm.
 */
const LEAST_SUCTION_FALL = 1.5;

/**
 * The least l with which soil of this n has a flow at all times. With y = Se^(1/m),
 *
 *   d ln K/d ln Se = l + 2 y (1 − y)^(m − 1)/(1 − (1 − y)^m)
 *
 * is least where soil is dry, l + 2/m: for z = 1 − y, 1 − z^m is at most m z^(m − 1) (1 − z). Below 0, K would rise as soil
 * dries. Below 1, soil that drains (dSe/dt ~ −K) would lose its last water at one moment, and have no head from then on.
 *
 * There Se ~ |h|^(1 − n), so that K ~ |h|^−((n − 1) l + 2n). With 1 or less, dry soil would draw water without limit.
 */
export const leastPoreExponent = (n: number): number =>
  Math.max(LEAST_DRY_FALL, LEAST_SUCTION_FALL / (n - 1)) - (2 * n) / (n - 1);

/** The check of a soil whose n and l stand at these paths. */
export function poreExponentFault({ number, fault }: Reader, paths: { n: string; l: string }): Fault | false {
  const n = number(paths.n);
  const least = leastPoreExponent(n);
  return (
    number(paths.l) < least &&
    fault(
      paths.l,
      `at least ${lowerLimit(least)} where n is ${figures(n)}: below that, dry soil would pass water too easily`,
    )
  );
}
