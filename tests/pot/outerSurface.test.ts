import fc from "fast-check";
import { expect, test } from "vitest";
import { innerSurface } from "../../model/pot/innerSurface.ts";
import { roomOnAxis, wallAreaBetween } from "../../model/pot/outerSurface.ts";
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

test("the room on a cone's axis shrinks evenly to its point", () => {
  const outline = outlineOf(profile([3, 0].map((r, k) => ({ r, d: 4 * k }))));
  for (const d of [0, 1, 2, 3.9])
    expectClose(roomOnAxis(outline, d), (3 * (4 - d)) / 5, { tolerance: 1e-12, unit: "cm", what: `room at ${d} cm` });
});

test("a wall thinner than the room on the axis, and no other, leaves water there", () => {
  const parts = fc.tuple(fc.integer({ min: 21, max: 90 }), fc.integer({ min: 21, max: 90 }));
  const at = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(parts, at, at, at, ([rim, belly], middle, share, end) => {
      const radii = [rim / 10, belly / 10, 2 * Math.max(0, end - 0.5)];
      const outline = outlineOf(profile(radii.map((r, k) => ({ r, d: [0, 0.5 + 7 * middle, 8][k]! }))));
      const [wall, d] = [2, 7 * share];
      const inside = innerSurface(outline, wall);
      const hasWater = inside[0]!.r > 0 && inside.at(-1)!.d > d;
      return Math.abs(roomOnAxis(outline, d) - wall) < 1e-6 || hasWater === roomOnAxis(outline, d) > wall;
    }),
    { numRuns: 300 },
  );
});
