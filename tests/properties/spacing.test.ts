import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SpacingReading, searchSpacing, spacingAdvice } from "../../model/advice/pot/spacing.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import type { Plan } from "../../model/plan/plan.ts";
import { TEXTURE_CLASSES } from "../../model/soil/textureTriangle.ts";
import { planned } from "../advice/handMade.ts";
import { numRuns, seed } from "../support/deep.ts";

/** What a search with few runs may miss by, cm; and a wide pot's least spacing counts as none. */
const MISS = 2;

/** The largest spacing, cm. */
function spacingOf(plan: Plan): number {
  const search = searchSpacing(plan);
  let next = search.next();
  while (!next.done) next = search.next(simulateToEnd(next.value));
  return next.value.kind === "none" ? 0 : next.value.spacing;
}

const anyBed = fc.record({
  soil: fc
    .constantFrom(...TEXTURE_CLASSES.filter((name) => name !== "silty clay"))
    .map((name) => ({ kind: "class", name })),
  plantStage: fc.constantFrom("young", "half grown", "full grown"),
  filling: fc.constantFrom({ kind: "float" }, { kind: "every", days: 2 }, { kind: "every", days: 4 }),
  potGrid: fc.constantFrom("square", "triangular"),
  startSuctionKPa: fc.integer({ min: 20, max: 800 }),
});

const wants = (easyWaterSuctionKPa: number) => ({
  crop: { kind: "own", name: "a crop", easyWaterSuctionKPa, deepestRoots: 40 },
});

describe("the largest spacing", () => {
  it("is less or the same for a crop that needs wetter soil, on readings of any kind", () => {
    const heads = fc.array(fc.double({ min: -9000, max: 10, noNaN: true }), { minLength: 1, maxLength: 12 });
    const asReadings = (all: number[]): SpacingReading[] =>
      all.map((midwayHead, k) => ({ spacing: 30 + 10 * k, midwayHead, depth: 20, isCapped: false }));
    const suctions = fc.double({ min: 30, max: 8000, noNaN: true });
    fc.assert(
      fc.property(heads, suctions, suctions, (all, one, other) => {
        const [needsWet, needsLess] = [Math.min(one, other), Math.max(one, other)];
        const spacing = (suction: number) => {
          const crop = { ...planned().crop, easyWaterHead: -suction };
          const advice = spacingAdvice({ crop }, asReadings(all));
          return advice.kind === "none" ? 0 : advice.spacing;
        };
        expect(spacing(needsWet)).toBeLessThanOrEqual(spacing(needsLess) + 1e-9);
      }),
      { seed, numRuns: 500 },
    );
  });

  it("is less or the same for a crop that suffers earlier, in soils and beds of any kind", () => {
    fc.assert(
      fc.property(anyBed, fc.constantFrom(0.5, 0.25), (bed, share) => {
        const plan = planned({ ...bed, ...wants(80), days: 8 });
        // Its roots drink as before, so that only what is asked of the ground midway differs.
        const earlier = { ...plan, crop: { ...plan.crop, easyWaterHead: share * plan.crop.easyWaterHead } };
        expect(spacingOf(earlier)).toBeLessThanOrEqual(spacingOf(plan) + MISS);
      }),
      { seed, numRuns: numRuns(2, 24) },
    );
  });

  it("is no less where the ground is wetter at the start", () => {
    fc.assert(
      fc.property(anyBed, fc.constantFrom(0.5, 0.2), (bed, share) => {
        const plan = planned({ ...bed, ...wants(80), days: 8 });
        const wetter = { ...plan, startHead: share * plan.startHead };
        expect(spacingOf(wetter)).toBeGreaterThanOrEqual(spacingOf(plan) - MISS);
      }),
      { seed, numRuns: numRuns(2, 24) },
    );
  });
});
