import { expect, test } from "vitest";
import { haverkamp } from "../../model/checks/haverkamp.ts";
import { expectClose } from "../support/close.ts";

const shared = { thetaR: 0.1, thetaS: 0.4, Ks: 6, A: 1000, B: 3 };

test("where |h|^b = a the soil is half saturated, and where |h|^B = A it conducts half of Ks", () => {
  const soil = haverkamp({ ...shared, retention: { form: "power", a: 10_000, b: 4 } });
  expectClose(soil.theta(-10), 0.25, { tolerance: 1e-14, unit: "cm³/cm³", what: "θ" });
  expectClose(soil.K(-10), 3, { tolerance: 1e-14, unit: "cm/day", what: "K" });
});

test("with the logarithm the soil is half saturated where (ln|h|)^b = a, and full from −1 cm on", () => {
  const soil = haverkamp({ ...shared, retention: { form: "logarithm", a: 625, b: 4 } });
  expectClose(soil.theta(-Math.exp(5)), 0.25, { tolerance: 1e-14, unit: "cm³/cm³", what: "θ" });
  expect([soil.theta(-1), soil.theta(-0.2), soil.dThetaDh(-0.2)]).toEqual([0.4, 0.4, 0]);
});
