import { quantile, range, shuffler } from "d3-array";
import { describe, expect, it } from "vitest";
import { searchSpacing } from "../../model/advice/pot/spacing.ts";
import { drawMembers, SOIL_GROUPS } from "../../model/ensemble/members.ts";
import { memberPlan } from "../../model/ensemble/outcome.ts";
import { type SpacingOutcome, spacingBand } from "../../model/ensemble/spacingOutcome.ts";
import { solveMember } from "../../model/ensemble/task.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { expectClose } from "../support/close.ts";
import { plan as planOf } from "../support/livingPlan.ts";

const plan = planOf({ startSuctionKPa: 100, days: 7, spacing: 60 });
const task = { kind: "spacing", near: 60 } as const;

const outcome = (index: number, spacing: number, trouble: string | null = null): SpacingOutcome => ({
  index,
  trouble,
  kind: "found",
  spacing,
});

describe("the spacing of drawn soils", () => {
  const members = drawMembers(plan, { count: 3, seed: 3, varied: SOIL_GROUPS });

  it("is that of a search in each of them", () => {
    const outcomes = members.map((member) => solveMember(plan, member, task));
    for (const [i, member] of members.entries()) {
      const search = searchSpacing(memberPlan(plan, member), { near: 60 });
      let next = search.next();
      while (!next.done) next = search.next(simulateToEnd(next.value));
      const { spacing, kind } = next.value;
      expect(outcomes[i]).toEqual({ index: i, spacing, kind, trouble: null });
    }
    expect(new Set(outcomes.map(({ spacing }) => spacing)).size).toBe(3);
  });

  it("makes a band in which the order of arrival counts for nothing, and failed members have no part", () => {
    const spacings = [48, 71, 55, 62, 58, 66, 49, 80, 61, 53];
    const outcomes = [...spacings.map((spacing, k) => outcome(k, spacing)), outcome(10, 0, "step too small")];
    const band = spacingBand(outcomes)!;
    expect(band).toMatchObject({ solved: 10, failed: 1, none: 0, beyond: 0 });
    const limits = [
      { ...outcome(0, 25), kind: "none" as const },
      { ...outcome(1, 250), kind: "beyond" as const },
    ];
    expect(spacingBand([...limits, outcome(2, 60)])).toMatchObject({ solved: 3, none: 1, beyond: 1 });
    expectClose(band.low, quantile(spacings, 0.1)!, { tolerance: 1e-12, unit: "cm", what: "low" });
    expectClose(band.high, quantile(spacings, 0.9)!, { tolerance: 1e-12, unit: "cm", what: "high" });
    const shuffle = shuffler(() => 0.37);
    expect(spacingBand(shuffle(range(11).map((k) => outcomes[k]!)))).toEqual(band);
    expect(spacingBand([])).toBeNull();
  });
});

describe("the ground of a pot in three dimensions beside the circle of the same area", () => {
  it("gives as much water and is wetter midway than where it is farthest from any pot", () => {
    const near = planOf({ startSuctionKPa: 33, days: 7, spacing: 50, plantStage: "half grown" });
    const [member] = drawMembers(near, { count: 1, seed: 1, varied: [] });
    const { grid, circle, trouble, cells } = solveMember(near, member!, { kind: "ground" });
    expect(trouble).toBeNull();
    expect(cells).toBeGreaterThan(3000);
    expectClose(circle.givenLitres, grid.givenLitres, { tolerance: 0.01, relative: true, unit: "L", what: "given" });
    expectClose(circle.drunkLitres, grid.drunkLitres, { tolerance: 0.02, relative: true, unit: "L", what: "drunk" });
    expect(grid.farthestHead).toBeLessThan(grid.midwayHead);
    expect(grid.farthestHead).toBeLessThan(circle.farthestHead);
  });
});
