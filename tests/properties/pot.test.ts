import { max, min, pairs } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { buildPot } from "../../model/pot/buildPot.ts";
import { innerSurface } from "../../model/pot/innerSurface.ts";
import { wallAreaBetween } from "../../model/pot/outerSurface.ts";
import type { OutlinePoint, Pot } from "../../model/pot/pot.ts";
import { outlineOf } from "../../model/pot/potOutline.ts";
import { releaseIntoSuction, wallFlux } from "../../model/pot/wallLaw.ts";
import { numRuns, seed } from "../support/deep.ts";
import { outerVolume } from "../support/outerVolume.ts";
import { anyPot } from "../support/pots.ts";

const runs = { numRuns: numRuns(100, 1000), seed };
const share = fc.double({ min: 0, max: 1, noNaN: true });
const depthAt = (pot: Pot, share: number) => pot.fullDepth + share * (pot.emptyDepth - pot.fullDepth);

function holds(promise: (pot: Pot, a: number, b: number) => void) {
  fc.assert(
    fc.property(anyPot, share, share, (shape, a, b) => promise(buildPot(shape), a, b)),
    runs,
  );
}

test("an outline runs from the rim to the axis, never upward, between the axis and the widest radius", () => {
  fc.assert(
    fc.property(anyPot, (shape) => {
      const outline = outlineOf(shape);
      expect(outline[0]!.d).toBe(shape.rimDepth);
      expect(outline.at(-1)).toEqual({ r: 0, d: shape.outerDepth });
      for (const [a, b] of pairs(outline)) expect(b.d).toBeGreaterThanOrEqual(a.d);
      expect(min(outline, ({ r }) => r)).toBe(0);
      if (shape.shape === "jar") expect(max(outline, ({ r }) => r)).toBe(shape.bellyRadius);
    }),
    runs,
  );
});

test("every point of the inside is one wall thickness from the nearest point of the outside", () => {
  fc.assert(
    fc.property(anyPot, (shape) => {
      const outline = outlineOf(shape);
      for (const point of innerSurface(outline, shape.wallThickness).filter(({ r }) => r > 0)) {
        const nearest = min(pairs(outline), ([a, b]) => distance(point, a, b))!;
        expect(Math.abs(nearest - shape.wallThickness)).toBeLessThan(1e-9);
      }
    }),
    runs,
  );
});

function distance(p: OutlinePoint, a: OutlinePoint, b: OutlinePoint): number {
  const [r, d] = [b.r - a.r, b.d - a.d];
  const along = Math.min(1, Math.max(0, ((p.r - a.r) * r + (p.d - a.d) * d) / (r * r + d * d)));
  return Math.hypot(a.r + along * r - p.r, a.d + along * d - p.d);
}

test("a pot holds less than its outside takes up, and is empty above its outer base", () => {
  holds((pot) => {
    expect(pot.capacity).toBeGreaterThan(0);
    expect(pot.capacity).toBeLessThan(outerVolume(pot.outline));
    expect(pot.emptyDepth).toBeLessThanOrEqual(pot.outline.at(-1)!.d - pot.wallThickness);
    expect(pot.emptyDepth).toBeGreaterThan(pot.fullDepth);
  });
});

test("the higher the level, the more a pot holds", () => {
  holds((pot, a, b) => {
    if (Math.abs(a - b) < 1e-6) return;
    const [high, low] = [Math.min(a, b), Math.max(a, b)].map((s) => pot.volumeAt(depthAt(pot, s)));
    expect(high!).toBeGreaterThan(low!);
  });
});

test("volume and level undo each other to 1e-10", () => {
  holds((pot, a) => {
    const volume = a * pot.capacity;
    expect(Math.abs(pot.volumeAt(pot.levelAt(volume)) - volume)).toBeLessThan(1e-10 * pot.capacity);
    const dw = depthAt(pot, a);
    expect(Math.abs(pot.levelAt(pot.volumeAt(dw)) - dw)).toBeLessThan(1e-8 * (pot.emptyDepth - pot.fullDepth));
  });
});

test("the water's surface is the rate at which volume grows with level", () => {
  holds((pot, a) => {
    const [dw, step] = [depthAt(pot, 0.01 + 0.98 * a), 1e-6];
    const rate = (pot.volumeAt(dw - step) - pot.volumeAt(dw + step)) / (2 * step);
    // Rounding of volumes up to 1e5 cm³ over 2e-6 cm, and a bend of the inside within the step.
    expect(Math.abs(rate - pot.surfaceAt(dw))).toBeLessThan(2e-4 * pot.surfaceAt(dw) + 1e-3);
  });
});

test("wall areas of adjoining depths add up", () => {
  holds((pot, a, b) => {
    const depth = pot.outline.at(-1)!.d;
    const [high, low] = [Math.min(a, b), Math.max(a, b)].map((s) => pot.fullDepth + s * (depth - pot.fullDepth));
    const parts = wallAreaBetween(pot.outline, pot.fullDepth, high!) + wallAreaBetween(pot.outline, high!, low!);
    const whole = wallAreaBetween(pot.outline, pot.fullDepth, depth);
    expect(Math.abs(parts + wallAreaBetween(pot.outline, low!, depth) - whole)).toBeLessThan(1e-12 * whole);
  });
});

test("a fuller pot and a drier soil both release more, never more than the deepest flux through the whole wall", () => {
  holds((pot, a, b) => {
    const [high, low] = [Math.min(a, b), Math.max(a, b)].map((s) => depthAt(pot, s));
    const release = releaseIntoSuction(pot, high!, 100);
    expect(release).toBeGreaterThanOrEqual(releaseIntoSuction(pot, low!, 100));
    expect(releaseIntoSuction(pot, high!, 300)).toBeGreaterThanOrEqual(release);
    const bottom = pot.outline.at(-1)!.d;
    const most = wallFlux(pot, bottom, high!, -100) * wallAreaBetween(pot.outline, high!, bottom);
    expect(release * 1000).toBeLessThanOrEqual(most * (1 + 1e-12));
  });
});
