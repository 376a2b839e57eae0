import { type SpacingAdvice, searchSpacing } from "../advice/pot/spacing.ts";
import type { GridStore } from "../flow/gridStore.ts";
import type { Progress } from "../flow/run.ts";
import type { PottedGround } from "../plan/planPart.ts";
import { type Band, bandOf } from "./bands.ts";
import { finishedRun, orTrouble } from "./finishedRun.ts";
import type { Member } from "./member.ts";
import { memberPlan } from "./outcome.ts";

/** How far apart pots may stand in one member's soil. */
export interface SpacingOutcome {
  index: number;
  /** Why it could not be told; null where it could. The other values then mean nothing. */
  trouble: string | null;
  kind: SpacingAdvice["kind"];
  /** As in `SpacingAdvice`, cm. */
  spacing: number;
}

/** Searches the largest spacing of one member at the live setting, from `near` on, cm; a run that does not come to its end is its trouble. */
export function spacingCourse(
  plan: PottedGround,
  member: Member,
  near: number,
  grids?: GridStore,
): Generator<Progress, SpacingOutcome> {
  const troubled = (trouble: string) => ({ index: member.index, trouble, kind: "none" as const, spacing: 0 });
  return orTrouble(searched(plan, member, near, grids), troubled);
}

function* searched(
  plan: PottedGround,
  member: Member,
  near: number,
  grids?: GridStore,
): Generator<Progress, SpacingOutcome> {
  const search = searchSpacing(memberPlan(plan, member), { near });
  let next = search.next();
  while (!next.done) next = search.next(yield* finishedRun(next.value, grids));
  const { kind, spacing } = next.value;
  return { index: member.index, trouble: null, kind, spacing };
}

/** Largest spacings of all solved members; those that even the nearest pots leave dry count as the least tried. */
export interface SpacingBand extends Band {
  solved: number;
  failed: number;
  /** Of the solved ones: those in which no spacing keeps easy water midway, and those in which the largest tried does. */
  none: number;
  beyond: number;
}

/** The band of spacings, cm, over solved members; null where no member is solved. */
export function spacingBand(outcomes: readonly SpacingOutcome[]): SpacingBand | null {
  const solved = outcomes.filter(({ trouble }) => trouble === null);
  if (solved.length === 0) return null;
  const countOf = (meant: SpacingOutcome["kind"]) => solved.filter(({ kind }) => kind === meant).length;
  return {
    ...bandOf(solved.map(({ spacing }) => spacing)),
    solved: solved.length,
    failed: outcomes.length - solved.length,
    none: countOf("none"),
    beyond: countOf("beyond"),
  };
}
