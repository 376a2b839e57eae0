import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SowingAdvice, sowingAdvice, sowingRuler } from "../../../model/advice/pot/sowing.ts";
import { expectClose } from "../../support/close.ts";
import { type HandMade, handMade, planned, starter } from "../handMade.ts";

const FOREVER = [0, 10];

function bandOf(advice: SowingAdvice) {
  if (advice.kind !== "band") throw new Error(`no band: ${JSON.stringify(advice)}`);
  return advice.band;
}

describe("the sowing band of seeds", () => {
  it("lies between the soaked edge and the sprouting edge, counted from the wall", () => {
    const run = handMade(planned(), { day: FOREVER, moist: [25, 25], soaked: [12, 12] });
    expect(bandOf(sowingAdvice(planned(), run))).toEqual({
      inner: 2,
      outer: 15,
      innerCause: "soaked",
      sowingDay: 0,
      until: 4,
      isDayChosen: false,
      isHandWide: true,
      isOuterAtLeast: false,
    });
  });

  it("begins at the wall where no soil is ever soaked", () => {
    const run = handMade(planned(), { day: FOREVER, moist: [25, 25] });
    expect(bandOf(sowingAdvice(planned(), run))).toMatchObject({ inner: 0, innerCause: "wall" });
  });

  it("is as narrow as the worst hour between sowing and emergence, dips before refills included", () => {
    const plan = planned({ sowingDay: 1 });
    const run = handMade(plan, {
      day: [0, 1, 3, 3, 4, 10],
      moist: [30, 30, 24, 24, 30, 30],
      soaked: [0, 11, 11, 11, 13, 11],
    });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ inner: 3, outer: 14, until: 5, isDayChosen: true });
  });

  it("does not heed what happens before sowing or after emergence", () => {
    const plan = planned({ sowingDay: 2 });
    const run = handMade(plan, { day: [0, 2, 6, 10], moist: [0, 28, 28, 0], soaked: [40, 12, 12, 40] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ inner: 2, outer: 18 });
  });

  it("is told for the first day, by half days, on which it is a hand wide", () => {
    // The sprouting edge moves 2 cm a day: 10 cm from the wall on day 5, and does not go back.
    const plan = planned();
    const run = handMade(plan, { day: FOREVER, moist: [10, 30] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ sowingDay: 5, outer: 10, isHandWide: true });
  });

  it("that is never a hand wide is told for the day on which it is widest", () => {
    const plan = planned();
    const run = handMade(plan, { day: [0, 3, 7, 8, 10], moist: [0, 17, 17, 0, 0] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ sowingDay: 3, outer: 7, isHandWide: false });
  });

  it("on a day that a person chose is told for that day, wide or not", () => {
    const plan = planned({ sowingDay: 1 });
    const run = handMade(plan, { day: FOREVER, moist: [10, 30] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ sowingDay: 1, outer: 2, isHandWide: false });
  });

  it("counts distances along the soil surface, and keeps seeds out of a wall that bulges below it", () => {
    const points = [20, 24, 10].map((diameter, i) => ({ diameter, belowRim: i === 0 ? 0 : 2 * i - 1 }));
    const plan = planned({ pot: { shape: "profile", points, rimAboveSoil: 0 }, sowingDay: 0 });
    const run = handMade(plan, { day: FOREVER, moist: [25, 25] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ inner: 2, outer: 15, innerCause: "wall" });
  });

  it("counts from the rim of a pot sunk below the seed", () => {
    const plan = planned({ pot: { shape: "cylinder", diameter: 20, height: 25, rimAboveSoil: -4 }, sowingDay: 0 });
    const run = handMade(plan, { day: FOREVER, moist: [16, 16], soaked: [6, 6] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ inner: 0, outer: 6, innerCause: "wall" });
  });

  it("that goes on to the region's side says that it may be wider", () => {
    const plan = planned({ sowingDay: 1 });
    const run = handMade(plan, { day: [0, 1, 10], moist: [0, 100, 100] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ outer: 90, isOuterAtLeast: true });
  });
});

describe("where there is no band the answer is", () => {
  it("everywhere, if soil was moist enough at the start and stays so, but for what is soaked at the wall", () => {
    const run = handMade(planned(), { day: FOREVER, moist: [100, 100], soaked: [12, 12] });
    expect(sowingAdvice(planned(), run)).toEqual({
      kind: "everywhere",
      innerLimit: 2,
      sowingDay: 0,
      until: 4,
      isDayChosen: false,
    });
  });

  it("not everywhere, if soil that was moist at the start dries before seedlings are up", () => {
    const plan = planned({ sowingDay: 0 });
    const run = handMade(plan, { day: [0, 2, 10], moist: [100, 22, 22] });
    expect(bandOf(sowingAdvice(plan, run)).outer).toBe(12);
  });

  it("nowhere, too dry, if moist soil never passes the wall", () => {
    expect(sowingAdvice(planned(), handMade(planned(), { day: FOREVER }))).toMatchObject({
      kind: "nowhere",
      reason: "dry",
      outer: 0,
    });
  });

  it("nowhere, too dry, if the soil dries within every span from sowing to emergence", () => {
    const run = handMade(planned(), { day: [0, 1, 3, 5, 7, 9, 10], moist: [25, 0, 25, 0, 25, 0, 25] });
    expect(sowingAdvice(planned(), run)).toMatchObject({ kind: "nowhere", reason: "dry" });
  });

  it("nowhere, soaked, if all that stays moist is too wet, even where the start was dry", () => {
    const run = handMade(planned(), { day: [0, 1, 10], moist: [0, 15, 16], soaked: [0, 17, 17] });
    expect(sowingAdvice(planned(), run)).toMatchObject({ kind: "nowhere", reason: "soaked", inner: 7 });
  });

  it("nowhere, soaked, if soil was soaked everywhere at the start and does not drain", () => {
    const run = handMade(planned(), { day: FOREVER, moist: [100, 100], soaked: [100, 100] });
    expect(sowingAdvice(planned(), run)).toMatchObject({ kind: "nowhere", reason: "soaked" });
  });

  it("everywhere from the day on which soil soaked at the start has drained", () => {
    const run = handMade(planned(), { day: [0, 2, 2.5, 10], moist: [100, 100, 100, 100], soaked: [100, 100, 0, 0] });
    expect(sowingAdvice(planned(), run)).toMatchObject({ kind: "everywhere", sowingDay: 2.5, innerLimit: 0 });
  });

  it("an error, if the run ends before seedlings could be up", () => {
    const long = planned({ sowingDay: 7 });
    expect(() => sowingAdvice(long, handMade(long, { day: FOREVER }))).toThrow(/ends on day 10; .* must reach day 11/);
    expect(() => sowingAdvice(planned(), handMade(planned(), { day: [0, 3] }))).toThrow(/must reach day 4/);
  });
});

describe("the sowing band of starters", () => {
  it("keeps the whole root ball out of the wall and the soaked soil, and its middle in easy water", () => {
    const plan = planned({ sowing: starter, sowingDay: 0 });
    const dry = handMade(plan, { day: FOREVER, moist: [25, 25] });
    expect(bandOf(sowingAdvice(plan, dry))).toMatchObject({ inner: 3, outer: 15, innerCause: "wall", until: 9 });
    const wet = handMade(plan, { day: FOREVER, moist: [25, 25], soaked: [12, 12] });
    expect(bandOf(sowingAdvice(plan, wet))).toMatchObject({ inner: 5, outer: 15, innerCause: "soaked" });
  });

  it("needs no easy water while they are watered by hand, but dry feet all the while", () => {
    const plan = planned({ sowing: starter, sowingDay: 0 });
    const run = handMade(plan, { day: [0, 1, 2, 10], moist: [0, 0, 25, 25], soaked: [14, 0, 0, 0] });
    expect(bandOf(sowingAdvice(plan, run))).toMatchObject({ inner: 7, outer: 15 });
  });

  it("is nowhere, too dry, where easy water does not reach as far as a root ball can be set", () => {
    const plan = planned({ sowing: starter, sowingDay: 0 });
    const run = handMade(plan, { day: FOREVER, moist: [12, 12], soaked: [11, 11] });
    expect(sowingAdvice(plan, run)).toMatchObject({ kind: "nowhere", reason: "dry", inner: 4, outer: 2 });
  });

  it("keeps clear of the pot at any height of the root ball", () => {
    // The ball from 5 to 11 cm deep; the belly, 14 cm wide, at 10 cm.
    const pot = {
      shape: "profile",
      points: [
        { diameter: 20, belowRim: 0 },
        { diameter: 28, belowRim: 10 },
        { diameter: 10, belowRim: 20 },
      ],
      rimAboveSoil: 0,
    };
    const plan = planned({ pot, sowing: starter, sowingDay: 0 });
    expect(bandOf(sowingAdvice(plan, handMade(plan, { day: FOREVER, moist: [30, 30] })))).toMatchObject({
      inner: 7,
      outer: 20,
    });
  });
});

describe("the ruler", () => {
  const ruler = (history: HandMade, changes: object = {}) => {
    const plan = planned(changes);
    return sowingRuler(plan, handMade(plan, history), [0, 5, 10]);
  };

  it("tells the first day on which each distance is moist enough, and from when it stays so", () => {
    const marks = ruler({ day: [0, 2, 4, 6, 8], moist: [0, 20, 12, 16, 18] });
    expect(marks.map(({ distance }) => distance)).toEqual([0, 5, 10]);
    expect(marks.map(({ firstMoistDay }) => firstMoistDay)).toEqual([1, 1.5, 2]);
    expect(marks.map(({ lastingMoistDay }) => lastingMoistDay)).toEqual([1, 5.5, null]);
  });

  it("of soil moist from the start says day 0, and of soil never moist says so", () => {
    const marks = ruler({ day: FOREVER, moist: [15, 15] });
    expect(marks.map(({ firstMoistDay }) => firstMoistDay)).toEqual([0, 0, null]);
    expect(marks.map(({ lastingMoistDay }) => lastingMoistDay)).toEqual([0, 0, null]);
  });

  it("adds up the days on which each distance is soaked, parts of a step included", () => {
    const marks = ruler({ day: [0, 2, 4, 4, 6], soaked: [0, 20, 0, 15, 15] });
    const days = [2 * 1 + 2, 2 * 0.5 + 2, 0];
    for (const [k, { soakedDays, distance }] of marks.entries())
      expectClose(soakedDays, days[k]!, { tolerance: 1e-12, unit: "days", what: `soaked ${distance} cm away` });
  });

  it("tells until when a starter lives on water by hand alone: its near side is a ball's radius nearer", () => {
    const marks = ruler({ day: FOREVER, moist: [0, 20] }, { sowing: starter });
    expect(marks.map(({ ballReachedDay }) => ballReachedDay)).toEqual([5, 6, 8.5]);
    expect(marks.map(({ firstMoistDay }) => firstMoistDay)).toEqual([5, 7.5, 10]);
  });
});

describe("for any history", () => {
  const steps = fc.array(
    fc.record({
      moist: fc.double({ min: 20, max: 60, noNaN: true }),
      soaked: fc.double({ min: 0, max: 15, noNaN: true }),
    }),
    {
      minLength: 11,
      maxLength: 11,
    },
  );
  const day = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
  const limits = (advice: SowingAdvice) => (advice.kind === "band" ? advice.band : { inner: 1, outer: 1 });

  it("a crop that needs wetter soil never gets a wider band", () => {
    const plan = planned({ sowingDay: 3 });
    fc.assert(
      fc.property(steps, fc.double({ min: 0.2, max: 1, noNaN: true }), (history, share) => {
        const soaked = history.map((step) => step.soaked);
        const moist = history.map((step) => step.moist);
        const modest = limits(sowingAdvice(plan, handMade(plan, { day, soaked, moist })));
        const thirsty = sowingAdvice(plan, handMade(plan, { day, soaked, moist: moist.map((r) => share * r) }));
        if (thirsty.kind !== "band") return;
        expect(thirsty.band.outer).toBeLessThanOrEqual(modest.outer);
        expect(thirsty.band.inner).toBe(modest.inner);
      }),
    );
  });

  it("seeds that take longer to come up never get a wider band", () => {
    const slow = (emergenceDays: number) =>
      planned({ sowingDay: 2, sowing: { kind: "seed", sowingDepth: 1, emergenceDays, sproutingSuctionKPa: 300 } });
    fc.assert(
      fc.property(steps, fc.integer({ min: 1, max: 7 }), (history, days) => {
        const known = { day, soaked: history.map((step) => step.soaked), moist: history.map((step) => step.moist) };
        const longer = sowingAdvice(slow(days + 1), handMade(slow(days + 1), known));
        const shorter = limits(sowingAdvice(slow(days), handMade(slow(days), known)));
        if (longer.kind !== "band") return;
        expect(longer.band.outer).toBeLessThanOrEqual(shorter.outer);
        expect(longer.band.inner).toBeGreaterThanOrEqual(shorter.inner);
      }),
    );
  });

  it("the ruler's days never come sooner farther out, and farther soil is soaked no longer", () => {
    const never = (value: number | null) => value ?? Number.POSITIVE_INFINITY;
    fc.assert(
      fc.property(steps, (history) => {
        const known = { day, soaked: history.map((step) => step.soaked), moist: history.map((step) => step.moist) };
        const marks = sowingRuler(planned(), handMade(planned(), known), [0, 1, 4, 9, 16, 25]);
        marks.slice(1).forEach((mark, k) => {
          expect(never(mark.firstMoistDay)).toBeGreaterThanOrEqual(never(marks[k]!.firstMoistDay));
          expect(never(mark.lastingMoistDay)).toBeGreaterThanOrEqual(never(marks[k]!.lastingMoistDay));
          expect(never(mark.lastingMoistDay)).toBeGreaterThanOrEqual(never(mark.firstMoistDay));
          expect(mark.soakedDays).toBeLessThanOrEqual(marks[k]!.soakedDays);
        });
      }),
    );
  });
});
