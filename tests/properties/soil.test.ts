import fc from "fast-check";
import { expect, test } from "vitest";
import type { Soil } from "../../model/soil/soil.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { numRuns, seed } from "../support/deep.ts";
import { anyHead, anySoil, anyVanGenuchten } from "../support/soils.ts";

const runs = { numRuns: numRuns(100, 1000), seed };

function holds(promise: (soil: Soil, h: number, other: number) => void) {
  fc.assert(
    fc.property(anySoil, anyHead, anyHead, ({ soil }, h, other) => promise(soil, h, other)),
    runs,
  );
}

/**
 * Holds a derivative against (f(h + dh) − f(h − dh)) / 2 dh, dh = |h|/100 000. By the mean value theorem that is the
 * derivative somewhere between, so that they differ by no more than the derivative changes, and by rounding.
 */
function expectSlope(f: (h: number) => number, derivative: (h: number) => number, h: number, largest: number) {
  const dh = 1e-5 * -h;
  const slope = (f(h + dh) - f(h - dh)) / (2 * dh);
  const change = Math.abs(derivative(h + dh) - derivative(h - dh));
  const allowed = change + 1e-8 * derivative(h) + (4 * Number.EPSILON * largest) / dh;
  expect(Math.abs(slope - derivative(h))).toBeLessThanOrEqual(allowed);
}

test("the wetter the head, the more water: θ rises with h, within thetaR and thetaS", () => {
  holds((soil, a, b) => {
    const [dry, wet] = [Math.min(a, b), Math.max(a, b)];
    expect(soil.theta(dry)).toBeLessThanOrEqual(soil.theta(wet));
    if (soil.dThetaDh(wet) * (wet - dry) > 1e-12) expect(soil.theta(dry)).toBeLessThan(soil.theta(wet));
    expect(soil.theta(dry)).toBeGreaterThanOrEqual(soil.thetaR);
    expect(soil.theta(wet)).toBeLessThanOrEqual(soil.thetaS);
  });
});

test("K rises with h, above 0 and up to Ks", () => {
  holds((soil, a, b) => {
    const [dry, wet] = [Math.min(a, b), Math.max(a, b)];
    expect(soil.K(dry)).toBeGreaterThan(0);
    expect(soil.K(dry)).toBeLessThanOrEqual(soil.K(wet));
    expect(soil.K(wet)).toBeLessThanOrEqual(soil.Ks);
  });
});

test("the head at the water content of a head is that head, as far as rounding of θ allows", () => {
  holds((soil, h) => {
    const theta = soil.theta(h);
    fc.pre(theta - soil.thetaR > 1e-12 && theta < soil.thetaS);
    const rounding = (4 * Number.EPSILON * soil.thetaS) / soil.dThetaDh(h);
    expect(Math.abs(soil.hAtTheta(theta) - h)).toBeLessThanOrEqual(-h * 1e-11 + rounding);
  });
});

test("the water content at the head of a water content is that water content", () => {
  fc.assert(
    fc.property(anySoil, fc.double({ min: 1e-6, max: 1, noNaN: true }), ({ soil }, share) => {
      const dry = soil.theta(-1e4);
      const theta = dry + share * (soil.thetaS - dry);
      expect(Math.abs(soil.theta(soil.hAtTheta(theta)) - theta)).toBeLessThan(1e-13);
    }),
    runs,
  );
});

test("the capacity is the slope of θ", () => {
  holds((soil, h) => expectSlope(soil.theta, soil.dThetaDh, h, soil.thetaS));
});

test("dK/dh is the slope of K", () => {
  holds((soil, h) => expectSlope(soil.K, soil.dKDh, h, soil.K(h)));
});

test("φ grows with h by K: between two heads, by no less than the dry K and no more than the wet K", () => {
  holds((soil, h) => {
    const dry = 1.001 * h;
    const mean = (soil.phi(h) - soil.phi(dry)) / (h - dry);
    const error = (1e-10 * soil.phi(h)) / (h - dry);
    expect(mean).toBeGreaterThanOrEqual(soil.K(dry) - error);
    expect(mean).toBeLessThanOrEqual(soil.K(h) + error);
  });
});

test("far out on the dry side φ is the integral of the power law that K has become, to 1e-8", () => {
  fc.assert(
    fc.property(anyVanGenuchten, (parameters) => {
      const { phi, K } = vanGenuchten(parameters);
      // K ~ |h|^−a when dry, so φ = K|h|/(a − 1).
      const a = 2 * parameters.n + parameters.l * (parameters.n - 1);
      const h = -1e9 / parameters.alpha;
      expect(Math.abs(phi(h) / ((K(h) * -h) / (a - 1)) - 1)).toBeLessThan(1e-8);
    }),
    runs,
  );
});

test("at and above saturation θ, K and φ carry on as the soil is: full, Ks, and φ growing by Ks", () => {
  holds((soil, h) => {
    expect([soil.theta(0), soil.theta(-h), soil.K(0), soil.K(-h)]).toEqual([
      soil.thetaS,
      soil.thetaS,
      soil.Ks,
      soil.Ks,
    ]);
    expect([soil.dThetaDh(0), soil.dThetaDh(-h), soil.dKDh(0), soil.dKDh(-h)]).toEqual([0, 0, 0, 0]);
    expect(soil.hAtTheta(soil.thetaS)).toBe(0);
    const phi = soil.phi(0) - soil.Ks * h;
    expect(Math.abs(soil.phi(-h) - phi)).toBeLessThan(1e-12 * phi);
  });
});
