import { expect, test } from "vitest";
import { gardner } from "../../model/checks/gardner.ts";
import { capillaryLength, gravityNumber } from "../../model/soil/capillaryLength.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";
import { classMean } from "../support/problems.ts";

test("in a Gardner soil the capillary length is 1/α whatever the two heads", () => {
  const soil = gardner({ thetaR: 0.1, thetaS: 0.4, alpha: 0.05, Ks: 10 });
  for (const [wet, dry] of [
    [0, -1e4],
    [0, -30],
    [-15, -80],
  ] as const)
    expectClose(capillaryLength(soil, wet, dry), 20, { tolerance: 1e-9, unit: "cm", what: `λc, ${wet} to ${dry} cm` });
});

test("the capillary length does not depend on how fast the soil passes water, only on how K falls with suction", () => {
  const loam = classMean("loam");
  const length = (Ks: number) => capillaryLength(vanGenuchten({ ...loam, Ks }), 0, -5000);
  expectClose(length(1000 * loam.Ks), length(loam.Ks), { tolerance: 1e-12, relative: true, what: "λc, Ks × 1000" });
});

test("over a small step of head the capillary length is K over its slope", () => {
  const soil = vanGenuchten(classMean("clay"));
  const expected = soil.K(-20) / soil.dKDh(-20);
  const step = capillaryLength(soil, -19.99, -20.01);
  expectClose(step, expected, { tolerance: 1e-4, relative: true, unit: "cm", what: "λc around −20 cm" });
});

test("a cavity of 20 cm in a Gardner soil of α 0.05 per cm has s 0.5, and twice the cavity twice that", () => {
  expect(gravityNumber(20, 20)).toBe(0.5);
  expect(gravityNumber(40, 20)).toBe(1);
});
