import { test } from "vitest";
import { haverkamp } from "../../model/checks/haverkamp.ts";
import { integrateK, integrateKBetween, kirchhoffPotential } from "../../model/soil/quadrature.ts";
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

test("of a K that falls off too slowly to be summed from −∞, the Kirchhoff potential still has the right differences", () => {
  for (const power of [0.2, 0.9, 1, 1.01]) {
    const phi = kirchhoffPotential((h) => Math.min(1, Math.abs(h) ** -power));
    const exact = power === 1 ? Math.log(100) : (1000 ** (1 - power) - 10 ** (1 - power)) / (1 - power);
    const what = `φ(−10) − φ(−1000) of K = |h|^−${power}`;
    expectClose(phi(-10) - phi(-1000), exact, { tolerance: 1e-8, relative: true, unit: "cm²/day", what });
  }
});

test("the integral of K between two heads is exact for a power of |h|", () => {
  const integral = integrateK((h) => h ** -4, -20, -10);
  expectClose(integral, (10 ** -3 - 20 ** -3) / 3, { tolerance: 1e-14, relative: true, what: "∫ h⁻⁴ dh" });
});

test("so it is from K and its slope at two heads, near or far apart: to 1e-9, and to 1e-13 where K |h| is a cubic in ln|h|", () => {
  const between = (K: (h: number) => number, dK: (h: number) => number, dry: number, wet: number) => {
    const at = (h: number) => ({ h, K: K(h), dK: dK(h) });
    return integrateKBetween(K, at(dry), at(wet));
  };
  for (const [dry, wet] of [
    [-10.5, -10],
    [-20, -10],
  ] as const) {
    const power = between(
      (h) => h ** -4,
      (h) => -4 * h ** -5,
      dry,
      wet,
    );
    const exact = (wet ** -3 - dry ** -3) / -3;
    expectClose(power, exact, { tolerance: 1e-9, relative: true, what: `∫ h⁻⁴ dh from ${dry} to ${wet}` });
    const cubic = between(
      (h) => Math.log(-h) ** 3 / -h,
      (h) => (Math.log(-h) ** 3 - 3 * Math.log(-h) ** 2) / h ** 2,
      dry,
      wet,
    );
    const fourth = (Math.log(-dry) ** 4 - Math.log(-wet) ** 4) / 4;
    expectClose(cubic, fourth, { tolerance: 1e-13, relative: true, what: `∫ (ln|h|)³/|h| dh from ${dry} to ${wet}` });
  }
});
