import { expect, test } from "vitest";
import { firstZero } from "../../model/line/firstZero.ts";
import { NoConvergence } from "../../model/line/noConvergence.ts";
import { expectClose } from "../support/close.ts";

const found = (margin: (h: number) => number) =>
  firstZero(
    ({ h }: { h: number }) => margin(h),
    { h: 0 },
    { h: 1 },
    (h) => ({ h }),
  ).h;

test("a bent margin is 0 where it is found to be", () => {
  const h = found((x) => Math.exp(-5 * x) - 0.1);
  expectClose(h, Math.log(10) / 5, { tolerance: 1e-12, unit: "s", what: "moment" });
});

test("one that jumps past 0 is found to be past it, at the jump", () => {
  const h = found((x) => (x < 0.3 ? 1 : -1));
  expect(h).toBeGreaterThanOrEqual(0.3);
  expectClose(h, 0.3, { tolerance: 1e-9, unit: "s", what: "moment" });
});

test("one too lopsided to be found in the turns there are is said not to be found", () => {
  expect(() => found((x) => (x < 0.3 ? 1 : -1e40))).toThrow(NoConvergence);
});
