import { expect, test } from "vitest";
import { wallAreaBetween } from "../../model/pot/outerSurface.ts";
import { outlineOf } from "../../model/pot/potOutline.ts";
import { expectClose } from "../support/close.ts";
import { circlePoints, cylinder, profile, tapered } from "../support/pots.ts";

const area = { relative: true, unit: "cm²" };

test("a cylinder's wall is its side, and its base once that is reached", () => {
  const outline = outlineOf(cylinder);
  expectClose(wallAreaBetween(outline, 5, 15), 2 * Math.PI * 10 * 10, { ...area, tolerance: 1e-14, what: "side" });
  const side = 2 * Math.PI * 10 * 20;
  expectClose(wallAreaBetween(outline, -1, 19.9), side * 0.995, { ...area, tolerance: 1e-13, what: "just short" });
  expectClose(wallAreaBetween(outline, -1, 20), side + Math.PI * 100, { ...area, tolerance: 1e-14, what: "all" });
  expect(wallAreaBetween(outline, 20, 30)).toBe(0);
});

test("a frustum's side is π (a + b) times its slant", () => {
  expectClose(wallAreaBetween(outlineOf(tapered), 4, 12), Math.PI * (11 + 9) * Math.hypot(8, 2), {
    ...area,
    tolerance: 1e-14,
    what: "side between 4 and 12 cm",
  });
});

test("a sphere's zones are as large as those of the cylinder around it", () => {
  const outline = outlineOf(profile(circlePoints(15, 0)));
  expectClose(wallAreaBetween(outline, 2, 9), 2 * Math.PI * 15 * 7, { ...area, tolerance: 5e-4, what: "zone" });
});
