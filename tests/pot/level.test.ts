import { expect, test } from "vitest";
import { buildPot } from "../../model/pot/buildPot.ts";
import { expectClose } from "../support/close.ts";
import { circlePoints, cylinder, jar, profile, tapered } from "../support/pots.ts";

test("a cylinder holds its inner cross-section times its depth, exactly", () => {
  const pot = buildPot(cylinder);
  expect([pot.fullDepth, pot.emptyDepth]).toEqual([0, 19]);
  for (const dw of [0, 3, 11.25, 18.999]) {
    expectClose(pot.volumeAt(dw), Math.PI * 81 * (19 - dw), { tolerance: 1e-10, unit: "cm³", what: `dw ${dw}` });
    expect(pot.surfaceAt(dw)).toBe(Math.PI * 81);
  }
  expect(pot.capacity).toBe(pot.volumeAt(0));
});

test("a rim above the soil adds its height to what the pot holds", () => {
  const pot = buildPot({ ...cylinder, rimDepth: -4 });
  expect(pot.fullDepth).toBe(-4);
  expectClose(pot.capacity, Math.PI * 81 * 23, { tolerance: 1e-12, relative: true, unit: "cm³", what: "capacity" });
});

test("a tapered pot holds the frustum left inside a wall measured at right angles", () => {
  const across = Math.hypot(1, 5 / 20);
  const [rim, base] = [12 - across, 12 - (5 / 20) * 19 - across];
  const pot = buildPot(tapered);
  const frustum = (Math.PI * 19 * (rim ** 2 + rim * base + base ** 2)) / 3;
  expectClose(pot.capacity, frustum, { tolerance: 1e-13, relative: true, unit: "cm³", what: "capacity" });
  expectClose(pot.surfaceAt(0), Math.PI * rim ** 2, { tolerance: 1e-13, relative: true, unit: "cm²", what: "rim" });
});

test("a pointed pot is empty at the inner point, which lies wall / sin(half angle) above the outer one", () => {
  const pot = buildPot(
    profile([
      { r: 10, d: 0 },
      { r: 0, d: 20 },
    ]),
  );
  const apex = 20 - Math.hypot(10, 20) / 10;
  expectClose(pot.emptyDepth, apex, { tolerance: 1e-12, unit: "cm", what: "inner point" });
  expectClose(pot.capacity, (Math.PI * apex * (apex / 2) ** 2) / 3, { tolerance: 1e-11, unit: "cm³", what: "cone" });
});

test("a half-round pot holds the caps of a sphere smaller by its wall", () => {
  const pot = buildPot(profile(circlePoints(15, 0), 1.5));
  for (const height of [2, 5, 9, 13.5]) {
    const cap = (Math.PI * height ** 2 * (3 * 13.5 - height)) / 3;
    expectClose(pot.volumeAt(13.5 - height), cap, {
      tolerance: 5e-4,
      relative: true,
      unit: "cm³",
      what: `cap of height ${height}`,
    });
  }
});

test("where a wall turns inward, the inside has a corner as sharp", () => {
  const pot = buildPot(
    profile([
      { r: 8, d: 0 },
      { r: 12, d: 10 },
      { r: 9, d: 20 },
    ]),
  );
  // The sides moved inward, 12 + 0.4 x − √1.16 and 12 − 0.3 x − √1.09, cross x below the outer corner.
  const x = (Math.sqrt(1.16) - Math.sqrt(1.09)) / 0.7;
  const [belly, base] = [12 - 0.3 * x - Math.sqrt(1.09), 9.3 - Math.sqrt(1.09)];
  expectClose(pot.surfaceAt(10 + x), Math.PI * belly ** 2, { tolerance: 1e-11, unit: "cm²", what: "belly" });
  const lower = (Math.PI * (9 - x) * (belly ** 2 + belly * base + base ** 2)) / 3;
  expectClose(pot.volumeAt(10 + x), lower, { tolerance: 1e-12, relative: true, unit: "cm³", what: "below the belly" });
});

test("where a wall turns outward, the inside turns with a bend of the wall's thickness", () => {
  // Straight neck of radius 5, then a cone that widens at 45 degrees: inside, an arc of radius 1 around (5, 6).
  const pot = buildPot(
    profile([
      { r: 5, d: 0 },
      { r: 5, d: 6 },
      { r: 15, d: 16 },
      { r: 15, d: 20 },
    ]),
  );
  const radius = (dw: number) => Math.sqrt(pot.surfaceAt(dw) / Math.PI);
  expectClose(radius(6), 4, { tolerance: 1e-12, unit: "cm", what: "foot of the neck" });
  const turn = 6 + Math.SQRT1_2;
  expectClose(radius(turn), 5 - Math.SQRT1_2, { tolerance: 1e-12, unit: "cm", what: "top of the cone" });
  expectClose(radius(12), 5 + 6 - Math.SQRT2, { tolerance: 1e-12, unit: "cm", what: "within the cone" });
});

test("a ridge too narrow for the wall is followed inside by arcs around its feet", () => {
  // Ridge 1 cm high between depths 9 and 11 on a pot of radius 8 with a wall of 3: the inside is 8 − √(9 − x²), x ≤ 1 being
  // the distance from either foot. ∫ π (8 − √(9 − x²))² dx over both halves = 2π [73 − 1/3 − 8 (√8 + 9 asin 1/3)].
  const pot = buildPot(
    profile(
      [
        { r: 8, d: 0 },
        { r: 8, d: 9 },
        { r: 9, d: 10 },
        { r: 8, d: 11 },
        { r: 8, d: 20 },
      ],
      3,
    ),
  );
  const ridge = 2 * Math.PI * (73 - 1 / 3 - 8 * (Math.sqrt(8) + 9 * Math.asin(1 / 3)));
  // Chords miss at most 0.001 cm of a ring 33 cm around and 2 cm high.
  expectClose(pot.volumeAt(9) - pot.volumeAt(11), ridge, { tolerance: 0.066, unit: "cm³", what: "between the feet" });
});

test("a level shelf in the wall is a wall thick, and its inner edge is followed by an arc", () => {
  // Radius 9 to a centimetre above the shelf, then 5 − √(1 − x²) around its edge, x above it, then 4:
  // ∫ π (5 − √(1 − x²))² dx from 0 to 1 = π (25 − 5π/2 + 2/3). Chords miss at most 0.001 cm of a ring 32 cm around.
  const pot = buildPot(
    profile([
      { r: 10, d: 0 },
      { r: 10, d: 10 },
      { r: 5, d: 10 },
      { r: 5, d: 20 },
    ]),
  );
  const edge = 25 - 2.5 * Math.PI + 2 / 3;
  expectClose(pot.capacity, Math.PI * (81 * 9 + edge + 16 * 9), { tolerance: 0.032, unit: "cm³", what: "capacity" });
});

test("a lip is as thick as the wall, even above a flat shoulder", () => {
  const pot = buildPot(
    profile([
      { r: 4, d: 0 },
      { r: 12, d: 2 },
      { r: 12, d: 20 },
    ]),
  );
  expectClose(pot.surfaceAt(0), Math.PI * 3 ** 2, { tolerance: 1e-12, unit: "cm²", what: "mouth" });
  const level = 1.5;
  const shoulder = 4 + 4 * level - Math.hypot(1, 4);
  expectClose(pot.surfaceAt(level), Math.PI * shoulder ** 2, {
    tolerance: 1e-10,
    unit: "cm²",
    what: "under the shoulder",
  });
});

test("the level of every volume is found again, and the volume of every level", () => {
  for (const shape of [cylinder, tapered, jar, profile(circlePoints(15, 0))]) {
    const pot = buildPot(shape);
    for (let i = 0; i <= 50; i++) {
      const volume = (pot.capacity * i) / 50;
      expect(Math.abs(pot.volumeAt(pot.levelAt(volume)) - volume) / pot.capacity).toBeLessThan(1e-10);
      const dw = pot.fullDepth + ((pot.emptyDepth - pot.fullDepth) * i) / 50;
      expect(Math.abs(pot.levelAt(pot.volumeAt(dw)) - dw)).toBeLessThan(1e-10 * pot.emptyDepth);
    }
  }
});

test("below empty nothing is held, yet the level goes on falling with the base's area", () => {
  const pot = buildPot(cylinder);
  expect(pot.volumeAt(19)).toBe(0);
  expect(pot.volumeAt(25)).toBe(0);
  expect(pot.surfaceAt(25)).toBe(Math.PI * 81);
  expectClose(pot.levelAt(-Math.PI * 81), 20, { tolerance: 1e-12, unit: "cm", what: "a centimetre short" });
});

test("above the rim the inside goes on as a cylinder", () => {
  const pot = buildPot(tapered);
  const rim = pot.surfaceAt(0);
  expect(pot.surfaceAt(-3)).toBe(rim);
  expectClose(pot.volumeAt(-3), pot.capacity + 3 * rim, { tolerance: 1e-10, unit: "cm³", what: "volume" });
  expectClose(pot.levelAt(pot.capacity + 3 * rim), -3, { tolerance: 1e-12, unit: "cm", what: "level" });
});

test("a pot whose inside ends in a point still gives an overshoot a slope", () => {
  const pot = buildPot(profile(circlePoints(15, 0)));
  const mean = pot.capacity / (pot.emptyDepth - pot.fullDepth);
  expectClose(pot.levelAt(-mean / 100), pot.emptyDepth + 1, { tolerance: 1e-9, unit: "cm", what: "level" });
});

test("the plug's loss is kept in cm³ a day", () => {
  expect(buildPot({ ...cylinder, plugLeakLitres: 0.4 }).plugLeak).toBe(400);
});
