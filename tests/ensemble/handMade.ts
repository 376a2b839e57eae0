import type { Member } from "../../model/ensemble/member.ts";
import { OUTCOME_DAYS, type Outcome } from "../../model/ensemble/outcome.ts";
import type { Plan } from "../../model/plan/plan.ts";

/** An outcome whose values are known because they were written down; those by day are the same on all days. */
export function handMadeOutcome({
  radius = 20,
  depth = 30,
  ...known
}: Partial<Omit<Outcome, "radius" | "depth">> & { radius?: number; depth?: number } = {}): Outcome {
  return {
    index: 0,
    trouble: null,
    radius: OUTCOME_DAYS.map(() => radius),
    depth: OUTCOME_DAYS.map(() => depth),
    sowing: { inner: 2, outer: 12, isOuterAtLeast: false },
    emptyDay: null,
    seepageLitres: 5,
    ...known,
  };
}

export function troubledOutcome(index = 0): Outcome {
  return { ...handMadeOutcome({ index }), trouble: "step too small on day 3", radius: [], depth: [] };
}

/** A bed of which nothing is drawn but what `changes` says. */
export function memberOf(plan: Plan, changes: Partial<Member> = {}): Member {
  const { soil, startHead } = plan;
  return { index: 3, soil: soil.parameters, className: null, wallFactor: 1, startHead, potScale: 1, ...changes };
}

/** A plan as typed, for part files. */
export const TYPED_PLAN = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 25 },
  crop: { kind: "listed", name: "tomato" },
};
