import { test } from "vitest";
import { gardner } from "../../model/checks/gardner.ts";
import { expectClose } from "../support/close.ts";

const soil = gardner({ thetaR: 0.1, thetaS: 0.4, alpha: 0.05, Ks: 10 });
/** The head at which the soil is half saturated. */
const half = -Math.log(2) / 0.05;

test("at half saturation K is half of Ks and φ is K/α", () => {
  expectClose(soil.theta(half), 0.25, { tolerance: 1e-15, unit: "cm³/cm³", what: "θ" });
  expectClose(soil.K(half), 5, { tolerance: 1e-14, unit: "cm/day", what: "K" });
  expectClose(soil.phi(half), 100, { tolerance: 1e-12, unit: "cm²/day", what: "φ" });
});

test("the diffusivity K/C is the same at every head: Ks / (α (thetaS − thetaR))", () => {
  for (const h of [-0.1, half, -200]) {
    const diffusivity = soil.K(h) / soil.dThetaDh(h);
    expectClose(diffusivity, 10 / (0.05 * 0.3), { tolerance: 1e-10, unit: "cm²/day", what: `K/C at ${h} cm` });
  }
});
