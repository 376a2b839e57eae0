import fc from "fast-check";
import { expect, it } from "vitest";
import { mulchFactor } from "../../model/plants/mulch.ts";
import { expectClose } from "../support/close.ts";

const share = fc.double({ min: 0, max: 1, noNaN: true });

// FAO-56, ch. 10 (from memory): 5 % less for each 10 % of the ground.
it("mulch over all the ground halves the soil's evaporation, over a tenth of it saves 5 %, none saves nothing", () => {
  expect(mulchFactor(0)).toBe(1);
  expectClose(mulchFactor(0.1), 0.95, { tolerance: 1e-12, what: "factor" });
  expect(mulchFactor(1)).toBe(0.5);
});

it("mulch never raises evaporation, and more of it never saves less", () => {
  fc.assert(
    fc.property(share, share, (a, b) => {
      expect(mulchFactor(a)).toBeLessThanOrEqual(1);
      expect(mulchFactor(Math.max(a, b))).toBeLessThanOrEqual(mulchFactor(Math.min(a, b)));
    }),
  );
});
