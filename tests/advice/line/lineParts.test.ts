import { sum } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineChanges } from "../../../model/advice/line/lineChanges.ts";
import { lineParts } from "../../../model/advice/line/lineParts.ts";
import { potJoints } from "../../../model/advice/line/potJoints.ts";
import { layOutPots } from "../../../model/bed/layout.ts";
import type { Place } from "../../../model/bed/outline.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { bedLine } from "../../../model/problems/linedBed.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const BED = { bed: { shape: "rectangle", length: 4.8, width: 1.2 }, spacing: 65 };
/** Two rows of seven. */
const bedPlan = (line: object = {}, changes: object = {}): Plan => planOf({ ...BED, line, ...changes });
const placesOf = ({ bed }: Plan): Place[] => bed.potPlaces ?? layOutPots(bed.outline, bed);
const partsOf = (plan: Plan) => lineParts(plan, placesOf(plan));
const countsOf = (plan: Plan) => Object.fromEntries(partsOf(plan).fittings.map(({ name, count }) => [name, count]));

describe("the parts of a line", () => {
  it("are a main, a riser, a cross pipe, two rows and fourteen tubes, each with its slack", () => {
    const plan = bedPlan({
      slack: 20,
      main: { length: 5, bore: 16 },
      rowPipe: { bore: 13, height: 8 },
      tube: { length: 30 },
    });
    const { cuts, tubes } = partsOf(plan);
    const expected = [
      ["main", 16, 500, 1],
      ["riser", 16, 8, 1],
      ["cross pipe", 16, 65, 1],
      ["row pipe", 13, 6 * 65, 2],
      ["tube", 4, 30, 14],
    ] as const;
    expect(cuts.map(({ kind, count }) => [kind, count])).toEqual(expected.map(([kind, , , count]) => [kind, count]));
    expected.forEach(([kind, bore, length, count], k) => {
      expectClose(cuts[k]!.bore, bore, { tolerance: 1e-9, relative: true, unit: "mm", what: `bore of ${kind}` });
      expectClose(cuts[k]!.length, 1.2 * length, { tolerance: 1e-9, relative: true, unit: "cm", what: kind });
      expectClose(tubes[k]!.length, 1.2 * length * count, {
        tolerance: 1e-9,
        relative: true,
        unit: "cm",
        what: `${kind} in all`,
      });
      expect(tubes[k]!.pieces).toBe(count);
    });
  });

  it("count a tee where a row branches off, elbows where the way turns, and a stop at each end", () => {
    expect(countsOf(bedPlan())).toEqual({
      ...{ strainer: 1, valve: 1, elbow: 2, tee: 1 },
      ...{ "end stop": 2, "tube connector": 14 },
    });
    const oneRow = bedPlan({}, { bed: { shape: "rectangle", length: 4.8, width: 0.6 } });
    expect(countsOf(oneRow)).toMatchObject({ elbow: 2, "end stop": 1, "tube connector": 7 });
    expect(countsOf(oneRow)).not.toHaveProperty("tee");
  });

  it("hold emitters, floats and the tubes between pots only where the plan has them", () => {
    const plan = bedPlan({
      tube: { end: { kind: "emitter", flowAtOneMetre: 4 } },
      fullPots: "stop",
      joints: { kind: "rows", bore: 13, depth: 10 },
    });
    expect(countsOf(plan)).toMatchObject({ emitter: 14, float: 14, "seal for a tube through a wall": 24 });
    const cut = partsOf(plan).cuts.at(-1)!;
    // From the middle of one pot to that of the next, less the inside of both.
    const length = 65 - 2 * (10 - plan.pot.wallThickness);
    expect(cut).toMatchObject({ kind: "tube between pots", count: 12, bore: 13 });
    expectClose(cut.length, 1.1 * length, { tolerance: 1e-9, relative: true, unit: "cm", what: "between pots" });
  });

  it("add up to all pieces of the line, wherever the pots stand", () => {
    const place = fc.record({
      x: fc.double({ min: 0, max: 480, noNaN: true }),
      y: fc.double({ min: 0, max: 120, noNaN: true }),
    });
    const bed = fc.record({
      pots: fc.array(place, { minLength: 1, maxLength: 12 }),
      rowAngle: fc.integer({ min: -90, max: 90 }),
      slack: fc.integer({ min: 0, max: 50 }),
    });
    fc.assert(
      fc.property(bed, ({ pots, rowAngle, slack }) => {
        const plan = bedPlan({ slack, joints: { kind: "rows" } }, { rowAngle });
        const { line, rows } = bedLine(plan, pots);
        const { cuts, tubes } = lineParts(plan, pots);
        const all =
          100 * sum(line.pieces, ({ length }) => length) + sum(potJoints(plan, pots, rows), ({ length }) => length);
        const cut = sum(cuts, ({ length, count }) => length * count);
        // Cuts alike to a millimetre count as one of them.
        const tolerance = 0.1 * sum(cuts, ({ count }) => count);
        expectClose(cut, (1 + slack / 100) * all, { tolerance, unit: "cm", what: "all cuts" });
        expectClose(
          sum(tubes, ({ length }) => length),
          cut,
          { tolerance: 1e-9, relative: true, unit: "cm", what: "all tubes" },
        );
        expect(sum(tubes, ({ pieces }) => pieces)).toBe(sum(cuts, ({ count }) => count));
      }),
      { numRuns: 200 },
    );
  });
});

describe("what would fill pots sooner", () => {
  it("changes one thing at a time", () => {
    const plan = bedPlan();
    for (const { name, plan: changed } of lineChanges(plan)) {
      const differing = [
        ...Object.keys(plan.line).filter((key) => !same(plan.line, changed.line, key)),
        ...Object.keys(plan.tank).filter((key) => !same(plan.tank, changed.tank, key)),
      ];
      expect(differing.length, name).toBe(1);
      expect([changed.bed, changed.pot]).toEqual([plan.bed, plan.pot]);
    }
    expect(lineChanges(plan).map(({ name }) => name)).toContain("ball valve");
  });

  it("leaves out what is done already, or cannot be had", () => {
    const line = { valve: "ball valve", tube: { bore: 100 }, waterTemperature: 40 };
    const names = lineChanges(bedPlan(line)).map(({ name }) => name);
    expect(names).not.toContain("ball valve");
    expect(names).not.toContain("wider tubes");
    expect(names).not.toContain("warmer water");
    expect(names).toContain("wider main");
  });
});

const same = (a: object, b: object, key: string) =>
  JSON.stringify(a[key as keyof object]) === JSON.stringify(b[key as keyof object]);
