import { max, pairs } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { FINENESS, gridLines } from "../../model/flow/gridRule.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { wallRadiusAt } from "../../model/pot/potOutline.ts";
import { coarser } from "../support/coarser.ts";
import { anyProfile } from "../support/oddPots.ts";
import { anyPot, cylinder, jar, profile, tapered } from "../support/pots.ts";

const REGION = { radius: 100, depth: 150 };
const sizes = (edges: Float64Array) => pairs(edges).map(([from, to]) => to - from);
const boxes = ({ rEdges, dEdges }: ReturnType<typeof gridLines>) => (rEdges.length - 1) * (dEdges.length - 1);
const linesOf = (shape: Parameters<typeof buildPot>[0]) => gridLines(buildPot(shape), REGION, FINENESS.live);

describe("the grid by rule", () => {
  it("has lines along a straight pot's wall and base, and ends at the region's sides", () => {
    const { rEdges, dEdges } = linesOf(cylinder);
    expect([...rEdges]).toContain(cylinder.outerRadius);
    expect([...dEdges]).toContain(cylinder.outerDepth);
    expect([rEdges[0], rEdges.at(-1), dEdges[0], dEdges.at(-1)]).toEqual([0, REGION.radius, 0, REGION.depth]);
  });

  it("is fine across all that a leaning wall takes up in the soil, also where the rim stands above it", () => {
    const raised = { ...tapered, rimDepth: -3 };
    const { rEdges } = linesOf(raised);
    const [from, to] = [tapered.baseRadius, wallRadiusAt(raised, 0)];
    const within = pairs(rEdges).filter(([a, b]) => a >= from - 1e-9 && b <= to + 1e-9);
    expect(rEdges.some((edge) => Math.abs(edge - to) < 1e-9)).toBe(true);
    expect(max(within, ([a, b]) => b - a)!).toBeLessThanOrEqual(FINENESS.live.atWall * 17);
    expect(within.length).toBeGreaterThan(4);
  });

  it("has rows the finer the more the wall leans", () => {
    const tallestBeside = (shape: typeof cylinder | typeof tapered | typeof jar) =>
      max(
        pairs(linesOf(shape).dEdges).filter(([, below]) => below <= 20),
        ([above, below]) => below - above,
      )!;
    expect(tallestBeside(jar)).toBeLessThan(tallestBeside(cylinder));
  });

  it("rises from edge to edge for any pot, at every setting", () => {
    fc.assert(
      fc.property(anyPot, fc.constantFrom(...Object.values(FINENESS)), (shape, fineness) => {
        fc.pre(shape.outerDepth > 1);
        const { rEdges, dEdges } = gridLines(buildPot(shape), REGION, fineness);
        return [rEdges, dEdges].every((edges) => sizes(edges).every((size) => size > 0));
      }),
      { numRuns: 200 },
    );
  });

  it("has no more boxes than its setting allows, however flat, small or deep in the ground the pot", () => {
    const platter = profile(
      [
        { r: 92, d: 64 },
        { r: 6, d: 66 },
      ],
      0.2,
    );
    const cup = { ...cylinder, outerRadius: 1.4, outerDepth: 2, wallThickness: 0.4 };
    const grounds = fc.record({
      radius: fc.double({ min: 110, max: 1500 }),
      below: fc.double({ min: 50, max: 450 }),
      isOpen: fc.boolean(),
      isRooted: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.oneof(anyPot, anyProfile, fc.constantFrom(platter, cup)),
        grounds,
        fc.constantFrom(FINENESS.live, FINENESS.standard),
        (shape, { below, ...ground }, fineness) => {
          fc.pre(shape.outerDepth > 1);
          const block = { ...ground, depth: shape.outerDepth + below };
          return boxes(gridLines(buildPot(shape), block, fineness)) <= fineness.mostBoxes;
        },
      ),
      { numRuns: 400 },
    );
  });

  it("is not made coarser about common pots", () => {
    const small = { ...cylinder, outerRadius: 7, outerDepth: 14 };
    const wide = { ...cylinder, outerRadius: 30, outerDepth: 15 };
    for (const shape of [cylinder, tapered, jar, small, wide, { ...jar, rimDepth: -3 }])
      for (const fineness of Object.values(FINENESS)) {
        const unbounded = { ...fineness, mostEven: Number.POSITIVE_INFINITY, mostBoxes: Number.POSITIVE_INFINITY };
        for (const isRooted of [false, true]) {
          const block = { ...REGION, isOpen: true, isRooted };
          expect(gridLines(buildPot(shape), block, fineness)).toEqual(gridLines(buildPot(shape), block, unbounded));
        }
      }
  });

  it("has low rows under an open surface, and a line where one soil ends and another begins", () => {
    const pot = buildPot(cylinder);
    for (const fineness of Object.values(FINENESS))
      for (const layerDepth of [3, 15, 19.9, 47]) {
        const { dEdges } = gridLines(pot, { ...REGION, layerDepth, isOpen: true }, fineness);
        expect([...dEdges]).toEqual(expect.arrayContaining([0, layerDepth, cylinder.outerDepth, REGION.depth]));
        expect(sizes(dEdges)[0]!).toBeLessThanOrEqual(fineness.atSurface * 1.001);
        expect(sizes(dEdges).every((size) => size > 0)).toBe(true);
      }
  });

  it("is coarser by half when asked", () => {
    const count = (fineness: typeof FINENESS.live) => gridLines(buildPot(cylinder), REGION, fineness).rEdges.length;
    const [fine, coarse] = [count(FINENESS.reference), count(coarser(FINENESS.reference))];
    expect(coarse / fine).toBeGreaterThan(0.45);
    expect(coarse / fine).toBeLessThan(0.6);
  });
});
