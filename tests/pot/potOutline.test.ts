import { mean, pairs, range, sum } from "d3-array";
import { expect, test } from "vitest";
import { wallAreaBetween } from "../../model/pot/outerSurface.ts";
import { outlineOf, wallRadiusAt } from "../../model/pot/potOutline.ts";
import { expectClose } from "../support/close.ts";
import { outerVolume } from "../support/outerVolume.ts";
import { cylinder, jar, profile, tapered } from "../support/pots.ts";

test("a cylinder's outline is its rim, its lower edge and the middle of its base", () => {
  expect(outlineOf({ ...cylinder, rimDepth: -2 })).toEqual([
    { r: 10, d: -2 },
    { r: 10, d: 20 },
    { r: 0, d: 20 },
  ]);
});

test("a tapered pot's outline runs straight from rim to base", () => {
  expect(outlineOf(tapered)).toEqual([
    { r: 12, d: 0 },
    { r: 7, d: 20 },
    { r: 0, d: 20 },
  ]);
});

test("a pot's wall lies on its outline; above the rim it is the rim, below the base there is none", () => {
  // From 12 cm at the surface to 7 cm at 20 cm depth: 2.5 cm in 10 cm.
  expect([-3, 0, 10, 20, 20.1].map((depth) => wallRadiusAt(tapered, depth))).toEqual([12, 12, 9.5, 7, 0]);
});

test("a profile that stops short of the axis is closed by a flat base, and one that reaches it is left alone", () => {
  const open = [
    { r: 8, d: -1 },
    { r: 11, d: 6 },
    { r: 4, d: 18 },
  ];
  const pointed = [...open, { r: 0, d: 19 }];
  expect(outlineOf(profile(open))).toEqual([...open, { r: 0, d: 18 }]);
  expect(outlineOf(profile(pointed))).toEqual(pointed);
});

test("a jar's outline passes its neck, its belly and its base, and is widest at the belly", () => {
  const outline = outlineOf(jar);
  expect(outline[0]).toEqual({ r: 5, d: 0 });
  expect(outline).toContainEqual({ r: 14, d: 11 });
  expect(outline.slice(-2)).toEqual([
    { r: 6, d: 20 },
    { r: 0, d: 20 },
  ]);
  expect(Math.max(...outline.map(({ r }) => r))).toBe(14);
});

test("a jar stands upright at neck and belly, and meets its base level", () => {
  const outline = outlineOf(jar);
  const slopes = pairs(outline.slice(0, -1)).map(([a, b]) => (b.r - a.r) / (b.d - a.d));
  const belly = outline.findIndex(({ r }) => r === 14);
  for (const i of [0, belly - 1, belly]) {
    expectClose(slopes[i]!, 0, { tolerance: 0.035, what: `dr/dd next to point ${i}` });
  }
  expect(slopes.at(-1)!).toBeLessThan(-50);
});

test("a jar's volume is within 0.05 % of the smooth curve's", () => {
  // Shoulder R = c − (D/2) cos: π H (c² + D²/8), c the mean of the radii, D their difference. Bowl R = b + a √(1 − u²):
  // π H (b² + π a b / 2 + 2 a² / 3).
  const [shoulder, bowl] = [11 * (9.5 ** 2 + 9 ** 2 / 8), 9 * (6 ** 2 + (Math.PI * 8 * 6) / 2 + (2 * 8 ** 2) / 3)];
  expectClose(outerVolume(outlineOf(jar)), Math.PI * (shoulder + bowl), {
    tolerance: 5e-4,
    relative: true,
    unit: "cm³",
    what: "outer volume",
  });
});

test("a jar's wall area is within 0.05 % of the smooth curve's, above the belly and below", () => {
  const round = outlineOf({ ...jar, bellyRadius: 9, bellyDepth: 11, baseRadius: 0 });
  expectClose(wallAreaBetween(round, 11, 20), 2 * Math.PI * 9 ** 2, {
    tolerance: 5e-4,
    relative: true,
    unit: "cm²",
    what: "half sphere",
  });
  const density = (u: number) => {
    const [R, slope] = [9.5 - 4.5 * Math.cos(Math.PI * u), ((4.5 * Math.PI) / 11) * Math.sin(Math.PI * u)];
    return 2 * Math.PI * R * Math.hypot(1, slope);
  };
  const shoulder = 11 * mean(range(20000), (i) => density((i + 0.5) / 20000))!;
  expectClose(wallAreaBetween(outlineOf(jar), 0, 11), shoulder, {
    tolerance: 5e-4,
    relative: true,
    unit: "cm²",
    what: "shoulder",
  });
});

test("the outer volume is the pot's and no more", () => {
  const slices = [
    [12, 10, 8],
    [10, 7, 12],
  ].map(([a, b, y]) => (Math.PI * y! * (a! * a! + a! * b! + b! * b!)) / 3);
  const outline = outlineOf(
    profile([
      { r: 12, d: -3 },
      { r: 10, d: 5 },
      { r: 7, d: 17 },
    ]),
  );
  expectClose(outerVolume(outline), sum(slices), {
    tolerance: 1e-12,
    relative: true,
    unit: "cm³",
    what: "two frustums",
  });
});
