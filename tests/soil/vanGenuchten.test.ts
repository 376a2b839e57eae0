import { expect, test } from "vitest";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";
import { integrate } from "../support/integrate.ts";

const sand = vanGenuchten({ thetaR: 0.045, thetaS: 0.43, alpha: 0.145, n: 2.68, Ks: 712.8, l: 0.5 });
const flat = { thetaR: 0.05, thetaS: 0.4, alpha: 0.01, n: 1.04, Ks: 5, l: 0.5 };

test("with n = 2 and αh = −1, θ and K are the roots that the formula leaves", () => {
  const soil = vanGenuchten({ thetaR: 0.1, thetaS: 0.5, alpha: 0.02, n: 2, Ks: 10, l: 0.5 });
  // m = 1/2: Se = 2^−½ and K = Ks Se^½ (1 − √(1 − Se²))².
  expectClose(soil.theta(-50), 0.1 + 0.4 * Math.SQRT1_2, { tolerance: 1e-15, unit: "cm³/cm³", what: "θ" });
  const K = 10 * 2 ** -0.25 * (1 - Math.SQRT1_2) ** 2;
  expectClose(soil.K(-50), K, { tolerance: 1e-14, relative: true, unit: "cm/day", what: "K" });
});

test("in sand at −10 million cm K is still the power law m² Ks x^(−ml − 2), 36 orders below Ks", () => {
  const [m, x] = [1 - 1 / 2.68, (0.145 * 1e7) ** 2.68];
  const K = 712.8 * m * m * x ** (-0.5 * m - 2);
  expectClose(sand.K(-1e7), K, { tolerance: 1e-12, relative: true, unit: "cm/day", what: "K" });
});

test("with n = 1.04 φ agrees with an ODE solver from −1000 to −0.001 cm", () => {
  const soil = vanGenuchten(flat);
  // dφ/dy = K(−e^y) e^y, with y = ln|h| running from ln 0.001.
  const growth = (y: number) => Math.exp(y) * soil.K(-Math.exp(y));
  const integral = integrate((t) => growth(Math.log(1e-3) + t), 0, Math.log(1e6), 1e-12);
  const phi = soil.phi(-1e-3) - soil.phi(-1000);
  expectClose(phi, integral, { tolerance: 1e-9, relative: true, unit: "cm²/day", what: "φ(−0.001) − φ(−1000)" });
});

test("near saturation the slope of K grows without bound when n is below 2, and is 0 from saturation on", () => {
  const soil = vanGenuchten(flat);
  // K = Ks (1 − 2 |αh|^(n − 1) + …), so dK/dh rises tenfold or nearly for each tenth of |h|.
  const ratio = soil.dKDh(-1e-12) / soil.dKDh(-1e-11);
  expect(ratio).toBeGreaterThan(5);
  expect(soil.dKDh(0)).toBe(0);
});

test("φ of a head is 0 when infinitely dry, and grows by Ks h above saturation", () => {
  expect(sand.phi(Number.NEGATIVE_INFINITY)).toBe(0);
  expectClose(sand.phi(3) - sand.phi(0), 3 * 712.8, { tolerance: 1e-9, unit: "cm²/day", what: "φ(3) − φ(0)" });
});

test("a soil drier than thetaR has no head, and a full one has head 0", () => {
  expect(sand.hAtTheta(0.045)).toBe(Number.NEGATIVE_INFINITY);
  expect(sand.hAtTheta(0.43)).toBe(0);
});
