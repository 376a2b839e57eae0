import { expect, it, vi } from "vitest";
import { spacingBand } from "../../model/ensemble/spacingOutcome.ts";
import { solveMember } from "../../model/ensemble/task.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulate } from "../../model/flow/simulate.ts";
import type { Plan } from "../../model/plan/plan.ts";
import { handMade, planned } from "../advice/handMade.ts";
import { memberOf } from "./handMade.ts";

vi.mock("../../model/flow/simulate.ts", () => ({ simulate: vi.fn() }));

const plan = planned();
const member = memberOf(plan, { index: 0 });

/** A run that is over before its first step. */
// biome-ignore lint/correctness/useYield: there is no step to tell of.
function* ended(run: Run): ReturnType<typeof simulate> {
  return run;
}

const trouble = {
  reason: "step too small",
  day: 1.5,
  step: 9,
  place: { r: 10, d: 5 },
  change: "a higher n of the soil",
};

it("a member whose run fails says why and when, and gives no number that might look like an answer", () => {
  const run = handMade(plan, { day: [0, 1.5], moist: [20, 25], seepageLitres: [0, 3] });
  vi.mocked(simulate).mockReturnValue(ended({ ...run, status: "failed", trouble }));
  expect(solveMember(plan, member, { kind: "sowing", sowingDay: 0 })).toEqual({
    index: 0,
    trouble: "step too small on day 1.5",
    radius: [],
    depth: [],
    sowing: { inner: 0, outer: 0, isOuterAtLeast: false },
    emptyDay: null,
    seepageLitres: 0,
  });
});

it.each([{ kind: "spacing", near: 60 } as const, { kind: "ground" } as const])(
  "a member whose run fails on the way to its $kind says why and when too",
  (task) => {
    const run = handMade(plan, { day: [0, 1.5] });
    vi.mocked(simulate).mockReturnValue(ended({ ...run, status: "failed", trouble }));
    const outcome = solveMember(plan, member, task);
    expect(outcome).toMatchObject({ index: 0, trouble: "step too small on day 1.5" });
    if ("spacing" in outcome) expect(spacingBand([outcome])).toBeNull();
  },
);

it.each([
  { kind: "sowing", sowingDay: 0 } as const,
  { kind: "spacing", near: 60 } as const,
  { kind: "ground" } as const,
])("a fault of the program is no member's trouble: $kind throws it", (task) => {
  vi.mocked(simulate).mockImplementation(() => {
    throw new TypeError("out of luck");
  });
  expect(() => solveMember(plan, member, task)).toThrow(new TypeError("out of luck"));
  expect(() => solveMember({ ...plan, pot: undefined } as unknown as Plan, member, task)).toThrow(TypeError);
});
