import { test } from "vitest";
import { haverkamp } from "../../model/soil/haverkamp.ts";
import { integrateK, kirchhoffPotential } from "../../model/soil/quadrature.ts";
import { expectClose } from "../support/close.ts";

const HEADS = [0, -1e-6, -0.01, -1, -10, -100, -1e3];

test("the Kirchhoff potential of K = Ks e^(αh) is K/α, to 1e-10", () => {
  const K = (h: number) => 20 * Math.exp(0.04 * Math.min(h, 0));
  const phi = kirchhoffPotential(K);
  for (const h of HEADS) {
    expectClose(phi(h), K(h) / 0.04, { tolerance: 1e-10, relative: true, unit: "cm²/day", what: `φ(${h})` });
  }
});

test("the Kirchhoff potential of K = Ks A/(A + h²) is the arctangent, to 1e-10", () => {
  const retention = { form: "power" as const, a: 1e4, b: 2 };
  const { phi } = haverkamp({ thetaR: 0.05, thetaS: 0.4, retention, Ks: 8, A: 400, B: 2 });
  for (const h of HEADS) {
    const exact = 8 * 20 * Math.atan2(20, -h);
    expectClose(phi(h), exact, { tolerance: 1e-10, relative: true, unit: "cm²/day", what: `φ(${h})` });
  }
});

test("the integral of K between two heads is exact for a power of |h|", () => {
  const integral = integrateK((h) => h ** -4, -20, -10);
  expectClose(integral, (10 ** -3 - 20 ** -3) / 3, { tolerance: 1e-14, relative: true, what: "∫ h⁻⁴ dh" });
});
