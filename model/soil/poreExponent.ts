/** Which pore exponents l the conductivity of Mualem may have: see `vanGenuchten`. */
import { type Fault, figures, lowerLimit, type Reader } from "../input/faults.ts";

/** Least d ln K/d ln Se of dry soil: at 1 the last water hangs on rounding, a tenth more keeps clear of it. */
const LEAST_DRY_FALL = 1.1;

/**
 * The least l with which soil of this n has a flow at all times. With y = Se^(1/m),
 *
 *   d ln K/d ln Se = l + 2 y (1 − y)^(m − 1)/(1 − (1 − y)^m)
 *
 * is least where soil is dry, l + 2/m: for z = 1 − y, 1 − z^m is at most m z^(m − 1) (1 − z). Below 0, K would rise as soil
 * dries. Below 1, soil that drains (dSe/dt ~ −K) would lose its last water at one moment, and have no head from then on.
 */
export const leastPoreExponent = (n: number): number => LEAST_DRY_FALL - (2 * n) / (n - 1);

/** The check of a soil whose n and l stand at these paths. */
export function poreExponentFault({ number, fault }: Reader, paths: { n: string; l: string }): Fault | false {
  const n = number(paths.n);
  const least = leastPoreExponent(n);
  return (
    number(paths.l) < least &&
    fault(
      paths.l,
      `at least ${lowerLimit(least)} where n is ${figures(n)}: below that, dry soil would pass water nearly as well as moist soil`,
    )
  );
}
