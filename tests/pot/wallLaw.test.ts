import { expect, test } from "vitest";
import { buildPot } from "../../model/pot/buildPot.ts";
import { releaseIntoSuction, wallFlux } from "../../model/pot/wallLaw.ts";
import { expectClose } from "../support/close.ts";
import { circlePoints, cylinder, jar, profile, tapered } from "../support/pots.ts";

const pot = buildPot({ ...cylinder, wallThickness: 2 });

test("on a side the flux is Kw times the drop of pressure head over the wall", () => {
  expectClose(wallFlux(pot, 12, 3, -41), (0.05 * (9 + 41)) / 2, { tolerance: 1e-15, unit: "cm/day", what: "side" });
});

test("on the base gravity adds one to the gradient", () => {
  const pIn = 18 - 3;
  expectClose(wallFlux(pot, 20, 3, -41), 0.05 * ((pIn + 41) / 2 + 1), {
    tolerance: 1e-15,
    unit: "cm/day",
    what: "base",
  });
});

test("nothing passes above the water line", () => {
  expect(wallFlux(pot, 3, 3, -500)).toBe(0);
  expect(wallFlux(pot, 2.9, 3, -500)).toBe(0);
  expect(wallFlux(pot, 3.001, 3, -500)).toBeGreaterThan(0);
});

test("nothing passes once the pot is empty", () => {
  expect(wallFlux(pot, 20, 18, -500)).toBe(0);
  expect(wallFlux(pot, 20, 17.999, -500)).toBeGreaterThan(0);
  expect(releaseIntoSuction(pot, 18, 500)).toBe(0);
});

test("soil wetter than the water inside gives water back", () => {
  expectClose(wallFlux(pot, 12, 3, 13), (-0.05 * 4) / 2, { tolerance: 1e-15, unit: "cm/day", what: "side" });
});

test("water at rest on both sides of the wall does not move, whatever the shape", () => {
  for (const shape of [cylinder, tapered, jar]) {
    const still = buildPot(shape);
    for (const { d } of still.outline) expect(wallFlux(still, d, 4, d - 4)).toBe(0);
  }
});

test("a cylinder's release is that of its wet side and its base", () => {
  for (const [dw, suction] of [
    [0, 0],
    [6, 0],
    [6, 200],
    [-3, 50],
  ] as const) {
    const tall = buildPot({ ...cylinder, rimDepth: -5 });
    const wet = 20 - dw;
    const side = Math.PI * 10 * wet ** 2 + 2 * Math.PI * 10 * wet * suction;
    const litres = (0.05 * (side + Math.PI * 100 * (wet + suction))) / 1000;
    expectClose(releaseIntoSuction(tall, dw, suction), litres, {
      tolerance: 1e-13,
      relative: true,
      unit: "L/day",
      what: `level ${dw}, suction ${suction}`,
    });
  }
});

test("a cone's release is the integral of head over its slanting wall", () => {
  // r = 10 − d / 2: ∫ (d + 100) 2π r √1.25 dd from 4 to 20.
  const cone = buildPot(
    profile([
      { r: 10, d: 0 },
      { r: 0, d: 20 },
    ]),
  );
  const primitive = (d: number) => 10 * (d ** 2 / 2 + 96 * d) - (d ** 3 / 3 + 48 * d ** 2) / 2;
  const litres = (0.05 * 2 * Math.PI * Math.sqrt(1.25) * (primitive(20) - primitive(4))) / 1000;
  expectClose(releaseIntoSuction(cone, 4, 100), litres, {
    tolerance: 1e-13,
    relative: true,
    unit: "L/day",
    what: "cone",
  });
});

test("a round pot full to its top releases 3 V Kw / w when sunk in soaked soil", () => {
  const globe = buildPot(profile(circlePoints(12, -Math.PI / 2 + 1e-9, 800), 0.5));
  const litres = (3 * ((4 / 3) * Math.PI * 12 ** 3) * (0.05 / 0.5)) / 1000;
  expectClose(releaseIntoSuction(globe, -12, 0), litres, {
    tolerance: 1e-4,
    relative: true,
    unit: "L/day",
    what: "globe",
  });
});
