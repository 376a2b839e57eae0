import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { leastPoreExponent, PORE_EXPONENT } from "../../model/soil/poreExponent.ts";
import type { Soil } from "../../model/soil/soil.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { numRuns, seed } from "../support/deep.ts";
import { cylinderProblem } from "../support/problems.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyN = between(1.05, 20);
const soilOf = (n: number, l: number) => vanGenuchten({ thetaR: 0, thetaS: 1, alpha: 0.02, n, Ks: 10, l });
const runs = { seed, numRuns: numRuns(200, 5000) };

/** d ln K/d ln Se at a head; θr is 0 and θs 1. */
function fall(n: number, l: number, h: number): number {
  const { K, dKDh, theta, dThetaDh } = soilOf(n, l);
  return (dKDh(h) / K(h)) * (theta(h) / dThetaDh(h));
}

/** −d ln K/d ln |h| at a head. */
function suctionFall(n: number, l: number, h: number): number {
  const { K, dKDh } = soilOf(n, l);
  return (-h * dKDh(h)) / K(h);
}

describe("the least pore exponent", () => {
  it("lets K fall faster than the water above thetaR wherever soil dries, from saturation to air-dry", () => {
    fc.assert(
      fc.property(anyN, between(0, 20), between(-3, 10), (n, more, lnSuction) => {
        const l = leastPoreExponent(n) + more;
        expect(fall(n, l, -Math.exp(lnSuction))).toBeGreaterThan(1 + 0.9 * more);
      }),
      runs,
    );
  });

  it("lets K of dry soil fall as the suction to 1.5 or faster, just as fast where n is below 2.36", () => {
    const exponent = ({ K }: Soil) => Math.log10(K(-1e5) / K(-1e6));
    for (const n of [1.05, 1.25, 1.5, 2, 2.36]) expect(exponent(soilOf(n, leastPoreExponent(n)))).toBeCloseTo(1.5, 3);
    for (const n of [2.37, 3, 4]) expect(exponent(soilOf(n, leastPoreExponent(n)))).toBeGreaterThan(1.5);
  });

  it("is no higher than it must be: a little below it φ has no end, or K falls no faster than the water; then K rises as soil dries", () => {
    fc.assert(
      fc.property(anyN, between(0.11, 1), (n, more) => {
        const l = leastPoreExponent(n);
        const dry = -50 * 1e8 ** (1 / n);
        if (n > 2.364) expect(fall(n, l - more, dry)).toBeLessThan(1);
        else expect(suctionFall(n, l - (0.4 + more) / (n - 1), dry)).toBeLessThan(1);
        expect(soilOf(n, l - Math.max(1.1, 1.5 / (n - 1)) - more).dKDh(dry)).toBeLessThan(0);
      }),
      runs,
    );
  });

  it("lets published fits pass", () => {
    // Class means of Schaap & Leij (2000, Soil Sci. Soc. Am. J. 64:843-851): sand, loam, sandy clay, clay; from memory.
    // Then Wösten et al. (1999, Geoderma 90:169-185): coarse and medium topsoil, very fine topsoil, fine subsoil; from memory.
    const fits = [
      [3.177, -0.93],
      [1.472, -0.371],
      [1.207, -3.665],
      [1.253, -1.561],
      [1.3774, 1.25],
      [1.1804, -2.3421],
      [1.1033, 2.5],
      [1.0861, -3.7124],
    ] as const;
    for (const [n, l] of fits) {
      expect(l).toBeGreaterThan(leastPoreExponent(n));
      expect(Math.abs(l)).toBeLessThan(PORE_EXPONENT.max);
    }
  });

  it("gives soils that can be worked out, bone dry or moist", () => {
    const soils = [
      { alpha: 0.015, n: 1.25, Ks: 15 },
      { alpha: 0.3, n: 2, Ks: 50 },
      { alpha: 0.035, n: 3.2, Ks: 640 },
    ];
    for (const soil of soils)
      for (const startHead of [-500, -15_000]) {
        const l = Math.max(leastPoreExponent(soil.n), PORE_EXPONENT.min);
        const own = { thetaR: 0.05, thetaS: 0.4, ...soil, l };
        const { status, balanceError } = simulateToEnd(
          cylinderProblem({ soil: own, startHead, days: [3], accuracy: "live" }),
        );
        expect([status, balanceError < 1e-6]).toEqual(["finished", true]);
      }
  });
});
