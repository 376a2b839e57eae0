import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { type Bands, bandOf, bandsOf } from "../../model/ensemble/bands.ts";
import { OUTCOME_DAYS, type Outcome } from "../../model/ensemble/outcome.ts";
import type { Plan } from "../../model/plan/plan.ts";
import { planned } from "../advice/handMade.ts";
import { expectClose } from "../support/close.ts";
import { handMadeOutcome, troubledOutcome } from "./handMade.ts";

function bands(outcomes: Outcome[], plan: Plan = planned()): Bands {
  const known = bandsOf(plan, outcomes);
  if (known === null) throw new Error("no bands");
  return known;
}

describe("the 80 % band", () => {
  it("of 0, 1, ... 10 is 1 to 9 about 5", () => {
    expect(bandOf([7, 0, 1, 9, 3, 10, 5, 2, 8, 4, 6])).toEqual({ low: 1, median: 5, high: 9 });
  });

  it("lies in proportion between values: Hyndman & Fan (1996), definition 7, place (N − 1) p", () => {
    const { low, median, high } = bandOf([10, 20, 30, 40]);
    for (const [value, expected] of [
      [low, 13],
      [median, 25],
      [high, 37],
    ] as const)
      expectClose(value, expected, { tolerance: 1e-12, what: "percentile of 10, 20, 30, 40" });
  });

  it("of one value is that value", () => {
    expect(bandOf([3])).toEqual({ low: 3, median: 3, high: 3 });
  });
});

describe("the bands over outcomes", () => {
  it("tell radius and depth on each day, and each sowing limit by itself", () => {
    const outcomes = range(11).map((k) =>
      handMadeOutcome({ radius: k, depth: 100 + k, sowing: { inner: 10 - k, outer: 20 + k, isOuterAtLeast: false } }),
    );
    outcomes[10]!.radius[2] = 50;
    const { radius, depth, sowing, solved, failed } = bands(outcomes);
    expect({ solved, failed }).toEqual({ solved: 11, failed: 0 });
    expect(radius.map(({ day }) => day)).toEqual(OUTCOME_DAYS);
    expect(radius[0]).toEqual({ day: 0.5, low: 1, median: 5, high: 9 });
    expect(depth[14]).toEqual({ day: 14, low: 101, median: 105, high: 109 });
    expect(sowing.inner).toEqual({ low: 1, median: 5, high: 9 });
    expect(sowing.outer).toEqual({ low: 21, median: 25, high: 29 });
  });

  it("leave out members whose run failed, and count them", () => {
    const { radius, solved, failed } = bands([handMadeOutcome({ radius: 7 }), troubledOutcome(), troubledOutcome()]);
    expect({ solved, failed }).toEqual({ solved: 1, failed: 2 });
    expect(radius[0]).toEqual({ day: 0.5, low: 7, median: 7, high: 7 });
  });

  it("are not known where no run is solved", () => {
    expect(bandsOf(planned(), [])).toBeNull();
    expect(bandsOf(planned(), [troubledOutcome()])).toBeNull();
  });
});

describe("the day on which the pot is empty", () => {
  const emptying = (emptyDays: (number | null)[], filling: object = { kind: "once" }) =>
    bands(
      emptyDays.map((emptyDay) => handMadeOutcome({ emptyDay })),
      planned({ filling }),
    ).emptying;

  it("counts members that do not empty as later than the end", () => {
    // In order: 1, 2, 3, 4, 5, 6 and five that last: the 10th percentile is the 2nd of eleven, the median the 6th.
    expect(emptying([null, 6, 5, null, 4, 3, null, 2, 1, null, null])).toEqual({
      kind: "days",
      watched: 6,
      share: 6 / 11,
      low: 2,
      median: 6,
      high: null,
    });
  });

  it("is known up to a percentile that falls on the last member that empties", () => {
    const nine = range(1, 10).map((k) => k / 2);
    const { high } = emptying([0.25, ...nine, null]) as { high: number };
    expectClose(high, 4.5, { tolerance: 1e-6, unit: "days", what: "90th percentile, place 9 of 0 to 10" });
  });

  it("is not known where a percentile lies between a member that empties and one that does not", () => {
    expect(emptying([1, null])).toMatchObject({ low: null, median: null, high: null, share: 0.5 });
  });

  it("is watched to the next filling, or as far as the plan looks ahead", () => {
    expect(emptying([1], { kind: "every", days: 2 })).toMatchObject({ watched: 2 });
    expect(emptying([1], { kind: "every", days: 20 })).toMatchObject({ watched: 6 });
  });

  it("does not come where a float keeps the level", () => {
    expect(emptying([null], { kind: "float" })).toEqual({ kind: "held" });
  });
});
