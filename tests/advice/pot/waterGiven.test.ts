import { describe, expect, it } from "vitest";
import { fillingLasts, waterGiven } from "../../../model/advice/pot/waterGiven.ts";
import { expectClose } from "../../support/close.ts";
import { handMade, planned } from "../handMade.ts";

const litres = (what: string) => ({ tolerance: 1e-12, unit: "L", what });

describe("water given", () => {
  it("is told day by day, a last part of a day included, and adds up to the total", () => {
    const run = handMade(planned(), { day: [0, 1, 2, 2.5], seepageLitres: [0, 3, 5, 5.5] });
    expect(waterGiven(planned(), run)).toMatchObject({ total: 5.5, byDay: [3, 2, 0.5] });
  });

  it("is lost where it is not above the deepest roots any more", () => {
    // Roots to 30 cm: the upper litre of soil gained 0.2 L, the lower, half of it within the roots, 0.1 L.
    const run = handMade(planned(), { day: [0, 2], seepageLitres: [0, 1], theta: [0.3, 0.1, 0.2, 0.1] });
    const { lostBelowRoots, lostShare } = waterGiven(planned(), run);
    expectClose(lostBelowRoots, 1 - 0.2 - 0.05, litres("lost"));
    expectClose(lostShare, 0.75, { tolerance: 1e-12, what: "share lost" });
  });

  it("does not count as lost what a wet start drains without any pot", () => {
    // Rows out of the pot's reach fell by 0.05; beside the pot the upper one rose to 0.3, the lower fell with the rest.
    const run = handMade(planned(), { day: [0, 2], seepageLitres: [0, 1], theta: [0.3, 0.05, 0.05, 0.05] });
    expectClose(waterGiven(planned(), run).lostBelowRoots, 1 - 0.25, litres("lost"));
  });

  it("is never lost to more than all of it, nor to less than none", () => {
    const run = (theta: number[]) => handMade(planned(), { day: [0, 2], seepageLitres: [0, 1], theta });
    expect(waterGiven(planned(), run([0.05, 0.1, 0.05, 0.1])).lostShare).toBe(1);
    expect(waterGiven(planned(), run([1.2, 0.1, 0.1, 0.1])).lostShare).toBe(0);
  });

  it("of a pot that gave none has no share lost", () => {
    expect(waterGiven(planned(), handMade(planned(), { day: [0, 2] }))).toEqual({
      total: 0,
      byDay: [0, 0],
      lostBelowRoots: 0,
      lostShare: 0,
    });
  });
});

describe("one filling", () => {
  const once = planned({ filling: { kind: "once" } });
  const everyThree = planned({ filling: { kind: "every", days: 3 } });
  const slow = { day: [0, 3, 10], seepageLitres: [0, 2, 8] };

  it("lasts until the pot is first empty", () => {
    const run = handMade(once, { ...slow, firstEmptyDay: 6.5 });
    expect(fillingLasts(once, run, 8)).toEqual({ kind: "empty", day: 6.5 });
  });

  it("that outlasts the run or the next filling tells what was left by then", () => {
    expect(fillingLasts(once, handMade(once, slow), 10)).toEqual({ kind: "notEmpty", day: 10, shareLeft: 1 - 8 / 10 });
    expect(fillingLasts(everyThree, handMade(everyThree, slow), 10)).toEqual({
      kind: "notEmpty",
      day: 3,
      shareLeft: 1 - 2 / 10,
    });
  });

  it("is not called empty because a later one was", () => {
    const run = handMade(everyThree, { ...slow, firstEmptyDay: 6 });
    expect(fillingLasts(everyThree, run, 4)).toEqual({ kind: "notEmpty", day: 3, shareLeft: 0.5 });
  });

  it("of a pot on a float has no end", () => {
    const held = planned({ filling: { kind: "float" } });
    expect(fillingLasts(held, handMade(held, slow), 10)).toEqual({ kind: "held" });
  });
});
