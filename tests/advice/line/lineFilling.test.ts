import { sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { type FillStart, lineFilling, outletHeightSearch } from "../../../model/advice/line/lineFilling.ts";
import { layOutPots } from "../../../model/bed/layout.ts";
import type { Place } from "../../../model/bed/outline.ts";
import { kinematicViscosity } from "../../../model/line/water.ts";
import type { Plan } from "../../../model/plan/plan.ts";
import { potLitres } from "../../../model/pot/buildPot.ts";
import { GRAVITY } from "../../../model/units/factors.ts";
import { toEnd } from "../../../notebooks/runtime/toEnd.ts";
import { expectClose } from "../../support/close.ts";
import { plan as planOf } from "../../support/livingPlan.ts";

const BED = { bed: { shape: "rectangle", length: 4.8, width: 1.2 }, spacing: 65 };
/** Two rows of seven. */
const bedPlan = (changes: object = {}): Plan => planOf({ ...BED, ...changes });
const placesOf = ({ bed }: Plan): Place[] => bed.potPlaces ?? layOutPots(bed.outline, bed);
const fill = (plan: Plan, start?: FillStart) => lineFilling(plan, placesOf(plan), start);
const litresOf = ({ pot }: Plan) => potLitres(pot);

/** Pipes that lose next to nothing, so that the small tubes alone count. */
const WIDE = { main: { length: 1, bore: 100 }, rowPipe: { bore: 100, height: 5 }, valve: "ball valve" };
const ONE_POT = { bed: { shape: "rectangle", length: 0.5, width: 0.5 }, spacing: 65 };
/** Its level hardly falls. */
const LAKE = { volume: 100_000, waterHeight: 100, outletHeight: 60 };

describe("a filling", () => {
  it("of one pot by a fine tube takes its volume over the flow of Hagen and Poiseuille less two fittings", () => {
    const plan = planOf({ ...ONE_POT, tank: LAKE, line: { ...WIDE, tube: { bore: 2, length: 300, endHeight: 10 } } });
    const nu = kinematicViscosity(20);
    const [d, L, head] = [0.002, 3, 1.6 - 0.1];
    // head = a Q + b Q²: friction, then branch (1.8) and open end (1).
    const a = (128 * nu * L) / (Math.PI * GRAVITY * d ** 4);
    const b = (1.8 + 1) / (2 * GRAVITY * ((Math.PI / 4) * d ** 2) ** 2);
    const Q = (Math.sqrt(a ** 2 + 4 * b * head) - a) / (2 * b);
    expect((4 * Q) / (Math.PI * d * nu), "Reynolds number").toBeLessThan(2000);
    const { pots, valveMinutes, firstMinutes, slowest } = fill(plan);
    expect(pots.length).toBe(1);
    expectClose(pots[0]!.startFlow, Q * 3.6e6, { tolerance: 1e-4, relative: true, unit: "L/h", what: "flow" });
    expectClose(valveMinutes!, litresOf(plan) / (Q * 60_000), {
      tolerance: 1e-3,
      relative: true,
      unit: "minutes",
      what: "full",
    });
    expect([firstMinutes, slowest]).toEqual([valveMinutes, 0]);
  });

  it("of pots on pipes that lose nothing is the same for all, and as even as can be", () => {
    const { pots, evenness, overflowLitres } = fill(bedPlan({ tank: LAKE, line: WIDE }));
    expect(pots.length).toBe(14);
    for (const { minutes } of pots)
      expectClose(minutes!, pots[0]!.minutes!, { tolerance: 2e-3, relative: true, unit: "minutes", what: "each pot" });
    expect(evenness.ofFlows).toBeGreaterThan(99.9);
    expect(evenness.ofWater).toBeGreaterThan(99.9);
    expect(overflowLitres).toBeLessThan(0.002 * 14 * pots[0]!.litres);
  });

  it("tells each pot by its own number, whatever the order in which they are listed", () => {
    const plan = bedPlan();
    const places = placesOf(plan);
    const order = places.map((_, k) => (5 * k) % places.length);
    const listed = fill(plan).pots;
    const shuffled = lineFilling(
      plan,
      order.map((k) => places[k]!),
    ).pots;
    order.forEach((k, place) => {
      expectClose(shuffled[place]!.minutes!, listed[k]!.minutes!, {
        tolerance: 1e-9,
        relative: true,
        unit: "minutes",
        what: `pot ${k}`,
      });
      expectClose(shuffled[place]!.startFlow, listed[k]!.startFlow, {
        tolerance: 1e-9,
        relative: true,
        unit: "L/h",
        what: `pot ${k}`,
      });
    });
  });

  it("serves pots far along a row last, and loses over rims just what leaves the tank and stays in no pot", () => {
    const plan = bedPlan();
    const { pots, slowest, valveMinutes, overflowLitres, course } = fill(plan);
    const minutes = pots.map((pot) => pot.minutes!);
    expect(minutes.slice(0, 7)).toEqual(minutes.slice(0, 7).toSorted((a, b) => a - b));
    expect(slowest).toBe(13);
    expect(valveMinutes).toBe(Math.max(...minutes));
    const drawn = course[0]!.tankLitres - course.at(-1)!.tankLitres;
    const got = sum(pots, ({ litres }) => litres);
    expectClose(drawn, got + overflowLitres, {
      tolerance: 1e-9,
      relative: true,
      unit: "L",
      what: "drawn from the tank",
    });
    expectClose(got, 14 * litresOf(plan), { tolerance: 1e-9, relative: true, unit: "L", what: "in the pots" });
    expect(overflowLitres).toBeGreaterThan(0.5);
  });

  it("runs over no rim where floats stop full pots", () => {
    const { overflowLitres, pots } = fill(bedPlan({ line: { fullPots: "stop" } }));
    expectClose(overflowLitres, 0, { tolerance: 1e-9, unit: "L", what: "over rims" });
    expect(pots.every(({ minutes }) => minutes !== null)).toBe(true);
  });

  it("that begins with what a refill finds gives each pot just that", () => {
    const plan = bedPlan({ line: { fullPots: "stop" } });
    const refill = fill(plan, { litresEach: 2 });
    for (const { litres } of refill.pots)
      expectClose(litres, 2, { tolerance: 1e-9, relative: true, unit: "L", what: "got" });
    expect(refill.valveMinutes).toBeLessThan(fill(plan).valveMinutes!);
    const whole = fill(plan, { litresEach: 1000 });
    expectClose(whole.valveMinutes!, fill(plan).valveMinutes!, {
      tolerance: 1e-9,
      relative: true,
      unit: "minutes",
      what: "empty",
    });
  });

  it("comes to its end in few steps of time whatever the tubes’ bore, though the first pots run over for hours", () => {
    for (const bore of [1, 4, 10, 20, 40, 60]) {
      const { course, pots } = fill(bedPlan({ tank: { volume: 5000 }, line: { tube: { bore } } }));
      expect(course.length, `steps with tubes of ${bore} mm`).toBeLessThan(300);
      const [first, last] = [course[0]!, course.at(-1)!];
      const received = sum(pots, ({ litres, overflowLitres }) => litres + overflowLitres);
      expectClose(received, first.tankLitres - last.tankLitres, { tolerance: 1e-6, unit: "L", what: `${bore} mm` });
    }
  });

  it("brings pots joined in a row to one level", () => {
    const plan = bedPlan({ line: { joints: { kind: "rows", bore: 25, depth: 15 } } });
    const row = fill(plan, {}).course.at(-1)!.potLitres.slice(0, 7);
    const apart = fill(bedPlan()).course;
    const spread = (litres: Float64Array) => Math.max(...litres) - Math.min(...litres);
    const half = (course: typeof apart) =>
      course.find(({ potLitres }) => potLitres[0]! > litresOf(plan) / 2)!.potLitres.slice(0, 7);
    expect(spread(half(fill(plan).course))).toBeLessThan(0.5 * spread(half(apart)));
    expect(spread(row)).toBeLessThan(0.01);
  });
});

describe("a pot that never fills says why", () => {
  const whysOf = (plan: Plan) => [...new Set(fill(plan).pots.map(({ why }) => why))];

  it("the tank ran empty: what it held is in the pots and over their rims", () => {
    const filling = fill(bedPlan({ tank: { volume: 60, waterHeight: 60, outletHeight: 60 } }));
    expect(filling.pots[13]).toMatchObject({ why: "dry", minutes: null });
    expect(filling.valveMinutes).toBeNull();
    const got = sum(filling.pots, ({ litres, overflowLitres }) => litres + overflowLitres);
    expectClose(got, 60, { tolerance: 1e-6, relative: true, unit: "L", what: "given" });
  });

  it("the tank stands too low, from the start or in the end", () => {
    const plan = bedPlan();
    const sunk = { ...plan, tank: { ...plan.tank, outletHeight: -200 } };
    expect(whysOf(sunk)).toEqual(["low"]);
    expect(sum(fill(sunk).pots, ({ litres }) => litres)).toBe(0);
    const sinking = bedPlan({
      tank: { volume: 200, waterHeight: 100, outletHeight: -70 },
      line: { rowPipe: { height: 0 } },
    });
    expect(whysOf(sinking)).toEqual([null, "low"]);
    expect(fill(sinking).pots[13]!.litres).toBeGreaterThan(1);
  });

  it("a hump of the main that stands out of the tank’s water", () => {
    const humped = { main: { way: { kind: "humped", highest: 300, lowest: 0 } } };
    expect(whysOf(bedPlan({ line: humped }))).toEqual(["air"]);
  });

  it("a day is not enough", () => {
    const line = { tube: { end: { kind: "emitter", flowAtOneMetre: 0.02 } } };
    const filling = fill(bedPlan({ line }));
    expect(new Set(filling.pots.map(({ why }) => why))).toEqual(new Set(["slow"]));
    expect(filling.course.at(-1)!.minute).toBe(1440);
  });

  it("and the one that gets least is the slowest", () => {
    const { pots, slowest } = fill(bedPlan({ tank: { volume: 60, waterHeight: 60, outletHeight: 60 } }));
    expect(pots[slowest]!.litres).toBe(Math.min(...pots.map(({ litres }) => litres)));
  });
});

describe("the way to the slowest pot", () => {
  it("loses all of the head between the full tank’s water and the end of its tube", () => {
    const plan = bedPlan({ tank: { volume: 500, waterHeight: 90, outletHeight: 40 } });
    const { losses, profile } = fill(plan).way;
    const lost = losses.atOutlet + sum(losses.rows, ({ friction, fittings }) => friction + fittings);
    expectClose(lost, (90 + 40 - 2) / 100, { tolerance: 1e-6, relative: true, unit: "m", what: "head lost" });
    expect(profile.points[0]).toMatchObject({ height: 0.4, along: 0 });
    expectClose(profile.points.at(-1)!.height, 0.02, { tolerance: 1e-9, relative: true, unit: "m", what: "end" });
  });
});

describe("the least height of the tank’s outlet", () => {
  const wanted = (minutes: number, changes: object = {}) => bedPlan({ line: { wantedMinutes: minutes, ...changes } });
  const from = (plan: Plan, outletHeight: number) =>
    fill({ ...plan, tank: { ...plan.tank, outletHeight } }).valveMinutes ?? Number.POSITIVE_INFINITY;

  it("fills all pots in time, and half a centimetre lower does not", () => {
    const plan = wanted(8);
    const { height } = toEnd(outletHeightSearch(plan, placesOf(plan))) as { height: number };
    expect(from(plan, height)).toBeLessThanOrEqual(8 + 1e-9);
    expect(from(plan, height - 0.5)).toBeGreaterThan(8);
  });

  it("is found where a tank just large enough runs empty over the rims when it stands higher", () => {
    const plan = bedPlan({ tank: { volume: 67, waterHeight: 60, outletHeight: 60 } });
    expect([from(plan, 60), from(plan, 1000)]).toEqual([expect.closeTo(7.7, 1), Number.POSITIVE_INFINITY]);
    const { height } = toEnd(outletHeightSearch(plan, placesOf(plan))) as { height: number };
    expect(height).toBeLessThan(60);
    expect(from(plan, height)).toBeLessThan(60);
  });

  it("says why where no height does", () => {
    const plan = wanted(1, { tube: { bore: 1 } });
    expect(toEnd(outletHeightSearch(plan, placesOf(plan)))).toEqual({ height: null, why: "slow" });
    const small = { ...wanted(60), tank: { ...wanted(60).tank, litres: 50 } };
    expect(toEnd(outletHeightSearch(small, placesOf(small)))).toEqual({ height: null, why: "dry" });
  });
});
