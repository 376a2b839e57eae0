import { expect, it } from "vitest";
import { bedSpacings, spacingProblems } from "../../../model/advice/pot/bedSpacings.ts";
import { MOST_SPACING, triedSpacings } from "../../../model/advice/pot/spacing.ts";
import { entry, last } from "../../../model/input/lists.ts";
import { expectClose } from "../../support/close.ts";
import { evenRun, planned } from "../handMade.ts";

const plan = planned();
const { easyWaterHead } = plan.crop;

/** Suction that grows by a tenth of its logarithm a centimetre, and is the crop's limit at `limit`. */
const growing = (limit: number) => (spacing: number) => easyWaterHead * Math.exp(0.1 * (spacing - limit));

/** Runs of two beds in the order of their problems: each name is asked for, none is spelt. */
const names = Object.keys(spacingProblems({ near: plan, far: plan }));
const spacings = triedSpacings(plan);
const runs = Object.fromEntries(
  names.map((name, k) => {
    const headAt = growing(k < spacings.length ? 57 : 1000);
    return [name, evenRun(plan, headAt(entry(spacings, k % spacings.length)))];
  }),
);

it("asks for a run of each bed at each spacing", () => {
  expect(names).toHaveLength(2 * spacings.length);
});

it("reads the runs of the bed asked for, and of no other", () => {
  const near = bedSpacings(plan, "near", runs);
  expect(near.readings.map(({ spacing }) => spacing)).toEqual(spacings);
  expect(near.advice.kind).toBe("found");
  expectClose(near.advice.spacing, 57, {
    tolerance: 1e-9,
    relative: true,
    unit: "cm",
    what: "spacing at the crop's limit",
  });
  const far = bedSpacings(plan, "far", runs);
  expect(far.advice).toMatchObject({ kind: "beyond", spacing: last(spacings) });
  expect(last(spacings)).toBeLessThan(MOST_SPACING);
});

it("says which run is missing", () => {
  expect(() => bedSpacings(plan, "other", runs)).toThrow("There is no run of other, pots");
});
