import { range, shuffler } from "d3-array";
import fc from "fast-check";
import { expect, test } from "vitest";
import { bandsOf } from "../../model/ensemble/bands.ts";
import { drawMembers, MEMBER_GROUPS, type MemberGroup } from "../../model/ensemble/members.ts";
import { OUTCOME_DAYS, type Outcome } from "../../model/ensemble/outcome.ts";
import { type EnsemblePart, mergeParts, shardMembers } from "../../model/ensemble/parts.ts";
import { randomStreams } from "../../model/random/randomStreams.ts";
import { TEXTURE_CLASSES } from "../../model/soil/textureTriangle.ts";
import { rowNamed, soilDistributions } from "../../reference-data/load.ts";
import { planned } from "../advice/handMade.ts";
import { TYPED_PLAN } from "../ensemble/handMade.ts";
import { numRuns, seed } from "../support/deep.ts";

const anySeed = fc.integer({ min: 0, max: 2 ** 32 - 1 });
const anyClass = fc.constantFrom(...TEXTURE_CLASSES);
const anyCount = fc.integer({ min: 1, max: 60 });
const anyGroups = fc.subarray([...MEMBER_GROUPS]);

const textures = fc
  .tuple(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 0, max: 100 }))
  .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const)
  .map(([a, b]) => ({ kind: "texture" as const, sand: a, silt: b - a, clay: 100 - b }));
const anySoil = fc.oneof(
  anyClass.map((name) => ({ kind: "class" as const, name })),
  textures,
);

const runs = { numRuns: numRuns(40, 400), seed };

test("every drawn soil is within the limits of its class's distributions, and one that a plan may hold", () => {
  fc.assert(
    fc.property(anySeed, anySoil, (seed, soil) => {
      for (const { className, soil: drawn } of drawMembers(planned({ soil }), {
        count: 20,
        seed,
        varied: MEMBER_GROUPS,
      })) {
        const row = rowNamed(soilDistributions(), className!);
        const values = { ...drawn, KsCmPerHour: drawn.Ks / 24 };
        for (const name of ["KsCmPerHour", "thetaR", "thetaS", "alpha", "n"] as const) {
          expect(values[name]).toBeGreaterThanOrEqual(row[name].lowest);
          expect(values[name]).toBeLessThanOrEqual(row[name].highest);
        }
        expect(drawn.thetaR).toBeLessThan(drawn.thetaS);
        expect(drawn.n).toBeGreaterThanOrEqual(1.05);
        expect(drawn.Ks).toBeGreaterThanOrEqual(1e-4);
      }
    }),
    runs,
  );
});

test("the same seed gives the same member at the same place, however many follow it", () => {
  fc.assert(
    fc.property(anySeed, anySoil, anyCount, anyCount, anyGroups, (seed, soil, few, more, varied) => {
      const plan = planned({ soil });
      const members = drawMembers(plan, { count: few + more, seed, varied });
      expect(drawMembers(plan, { count: few, seed, varied })).toEqual(members.slice(0, few));
    }),
    runs,
  );
});

test("another seed gives other soils, its neighbour too", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 ** 32 - 2 }), (seed) => {
      const soilsOf = (s: number) => drawMembers(planned(), { count: 2, seed: s, varied: MEMBER_GROUPS });
      expect(soilsOf(seed)[0]!.soil.alpha).not.toBe(soilsOf(seed + 1)[0]!.soil.alpha);
      expect(soilsOf(seed)[0]!.soil.alpha).not.toBe(soilsOf(seed)[1]!.soil.alpha);
    }),
    runs,
  );
});

test("drawing one group does not move what is drawn of another", () => {
  const own = (plan: ReturnType<typeof planned>, drawing: { seed: number; varied: MemberGroup[] }) =>
    drawMembers(plan, { count: 8, ...drawing }).map(
      ({ soil: { Ks, ...retention }, wallFactor, startHead, potScale }) => ({
        conductivity: Ks,
        retention,
        wall: wallFactor,
        start: startHead,
        pot: potScale,
      }),
    );
  fc.assert(
    fc.property(anySeed, anySoil, anyGroups, (seed, soil, varied) => {
      const plan = planned({ soil });
      const all = own(plan, { seed, varied: [...MEMBER_GROUPS] });
      own(plan, { seed, varied }).forEach((member, k) => {
        for (const group of varied) expect(member[group]).toEqual(all[k]![group]);
      });
    }),
    runs,
  );
});

test("a stream does not feel how much is drawn from the others", () => {
  fc.assert(
    fc.property(anySeed, anyCount, (seed, count) => {
      const [one, other] = [randomStreams(seed, ["a", "b"]), randomStreams(seed, ["a", "b"])];
      for (let i = 0; i < count; i++) other.a();
      const numbers = range(5).map(() => other.b());
      expect(range(5).map(() => one.b())).toEqual(numbers);
      expect(numbers.every((u) => u >= 0 && u < 1)).toBe(true);
    }),
    runs,
  );
});

const length = fc.double({ min: 0, max: 100, noNaN: true });
const byDay = fc.array(length, { minLength: OUTCOME_DAYS.length, maxLength: OUTCOME_DAYS.length });

const anyOutcome = fc.record({
  trouble: fc.option(fc.constant("step too small"), { freq: 5 }),
  radius: byDay,
  depth: byDay,
  sowing: fc.record({ inner: length, outer: length, isOuterAtLeast: fc.boolean() }),
  emptyDay: fc.option(fc.double({ min: 0, max: 6, noNaN: true })),
  seepageLitres: length,
});

const anyOutcomes: fc.Arbitrary<Outcome[]> = fc
  .array(anyOutcome, { minLength: 1, maxLength: 30 })
  .map((all) => all.map((outcome, index) => ({ index, ...outcome })));

const plan = planned({ filling: { kind: "once" } });

test("the bands do not depend on the order in which the outcomes come", () => {
  fc.assert(
    fc.property(anyOutcomes, anySeed, (outcomes, seed) => {
      const shuffle = shuffler(randomStreams(seed, ["order"]).order);
      expect(bandsOf(plan, shuffle([...outcomes]))).toEqual(bandsOf(plan, outcomes));
    }),
    runs,
  );
});

test("a band is in order, and every agreed distance is in four of five bands", () => {
  fc.assert(
    fc.property(anyOutcomes, (outcomes) => {
      const bands = bandsOf(plan, outcomes);
      if (bands === null) return;
      for (const { low, median, high } of [...bands.radius, ...bands.depth, bands.sowing.inner, bands.sowing.outer]) {
        expect(low).toBeLessThanOrEqual(median);
        expect(median).toBeLessThanOrEqual(high);
      }
      for (const { from, to, share } of bands.sowing.agreement.shares) {
        const middle = (from + to) / 2;
        const solved = outcomes.filter(({ trouble }) => trouble === null);
        const holding = solved.filter(({ sowing }) => sowing.inner < middle && middle < sowing.outer);
        expect(share).toBe(holding.length / solved.length);
      }
    }),
    runs,
  );
});

test("an ensemble split in any way and merged in any order is the ensemble", () => {
  fc.assert(
    fc.property(anyOutcomes, fc.integer({ min: 1, max: 12 }), anySeed, (outcomes, n, seed) => {
      const drawing = { count: outcomes.length, seed, varied: MEMBER_GROUPS };
      const partOf = (i: number, of: number): EnsemblePart => ({
        version: 1,
        plan: TYPED_PLAN,
        drawing,
        sowingDay: 1,
        shard: { i, n: of },
        outcomes: shardMembers(outcomes, { i, n: of }),
      });
      const parts = range(1, n + 1).map((i) => ({ name: `${i}`, part: partOf(i, n) }));
      shuffler(randomStreams(seed, ["order"]).order)(parts);
      expect(mergeParts(parts)).toEqual({ ok: true, value: partOf(1, 1) });
    }),
    { ...runs, numRuns: numRuns(12, 100) },
  );
});
