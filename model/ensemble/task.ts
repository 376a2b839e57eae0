import type { GridStore } from "../flow/gridStore.ts";
import type { Progress } from "../flow/run.ts";
import type { PottedGround } from "../plan/planPart.ts";
import { type GroundOutcome, groundCourse } from "./groundOutcome.ts";
import type { Member } from "./member.ts";
import { type Outcome, sowingCourse } from "./outcome.ts";
import { type SpacingOutcome, spacingCourse } from "./spacingOutcome.ts";

/** What is worked out for every member of an ensemble. */
export type MemberTask =
  /** How water spreads, and where to sow on a day. */
  | { kind: "sowing"; sowingDay: number }
  /** How far apart pots may stand; the search begins `near` a spacing, cm. */
  | { kind: "spacing"; near: number }
  /** The ground about each pot in three dimensions, beside the circle of the same area. */
  | { kind: "ground" };

interface Outcomes {
  sowing: Outcome;
  spacing: SpacingOutcome;
  ground: GroundOutcome;
}

export type OutcomeOf<T extends MemberTask> = Outcomes[T["kind"]];

/** Works out a task for one member, with a halt after each step in time, for a worker that must be able to pause. */
export function memberCourse<T extends MemberTask>(
  plan: PottedGround,
  member: Member,
  task: T,
  grids?: GridStore,
): Generator<Progress, OutcomeOf<T>> {
  return courseOf(plan, member, task, grids) as Generator<Progress, OutcomeOf<T>>;
}

function courseOf(plan: PottedGround, member: Member, task: MemberTask, grids: GridStore | undefined) {
  switch (task.kind) {
    case "sowing":
      return sowingCourse(plan, member, task.sowingDay, grids);
    case "spacing":
      return spacingCourse(plan, member, task.near, grids);
    case "ground":
      return groundCourse(plan, member, grids);
  }
}

/** Works out a task for one member without a halt. */
export function solveMember<T extends MemberTask>(plan: PottedGround, member: Member, task: T): OutcomeOf<T> {
  const course = memberCourse(plan, member, task);
  for (;;) {
    const { done, value } = course.next();
    if (done) return value;
  }
}
