import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { leastPoreExponent } from "../../model/soil/poreExponent.ts";
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

  it("is no higher than it must be: a little below it, K falls no faster than the water; lower still, it rises as soil dries", () => {
    fc.assert(
      fc.property(anyN, between(0.11, 1), between(0, 10), (n, less, more) => {
        const dry = -50 * 1e8 ** (1 / n);
        expect(fall(n, leastPoreExponent(n) - less, dry)).toBeLessThan(1);
        expect(soilOf(n, leastPoreExponent(n) - 1.11 - more).dKDh(dry)).toBeLessThan(0);
      }),
      runs,
    );
  });

  it("gives soils that can be worked out, bone dry or moist", () => {
    const soils = [
      { alpha: 0.015, n: 1.25, Ks: 15 },
      { alpha: 0.3, n: 2, Ks: 50 },
      { alpha: 0.035, n: 3.2, Ks: 640 },
    ];
    for (const soil of soils)
      for (const startHead of [-500, -15_000]) {
        const l = Math.max(leastPoreExponent(soil.n), -20);
        const own = { thetaR: 0.05, thetaS: 0.4, ...soil, l };
        const { status, balanceError } = simulateToEnd(
          cylinderProblem({ soil: own, startHead, days: [3], accuracy: "live" }),
        );
        expect([status, balanceError < 1e-6]).toEqual(["finished", true]);
      }
  });
});
