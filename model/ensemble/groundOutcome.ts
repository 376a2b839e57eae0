import { headAt, spacingProblem, spacingReading } from "../advice/pot/spacing.ts";
import { farthestGround, sidesOf } from "../bed/potGrid.ts";
import type { GridStore } from "../flow/gridStore.ts";
import type { Progress, Run } from "../flow/run.ts";
import { last } from "../input/lists.ts";
import type { PottedGround } from "../plan/planPart.ts";
import { groundRadius } from "../problems/livingProblem.ts";
import { finishedRun, orTrouble } from "./finishedRun.ts";
import type { Member } from "./member.ts";
import { memberPlan } from "./outcome.ts";

/** The ground of one pot in three dimensions, as its grid gives it, and as the circle of the same area. */
export interface GroundOutcome {
  index: number;
  /** Why it could not be told; null where it could. The other values then mean nothing. */
  trouble: string | null;
  /** Pressure heads on the day of the reading, cm: midway to the next pot, and where the ground is farthest from any pot. */
  grid: GroundReading;
  /** The same in the circle, whose farthest ground is its side. */
  circle: GroundReading;
  /** The soil's cells in three dimensions. */
  cells: number;
}

export interface GroundReading {
  midwayHead: number;
  farthestHead: number;
  givenLitres: number;
  drunkLitres: number;
}

const NOTHING: GroundReading = { midwayHead: 0, farthestHead: 0, givenLitres: 0, drunkLitres: 0 };

/** Runs the plan's own spacing both ways at the standard setting; a run that does not come to its end is the member's trouble. */
export function groundCourse(
  plan: PottedGround,
  member: Member,
  grids?: GridStore,
): Generator<Progress, GroundOutcome> {
  const troubled = (trouble: string) => ({ index: member.index, trouble, grid: NOTHING, circle: NOTHING, cells: 0 });
  return orTrouble(bothWays(plan, member, grids), troubled);
}

function* bothWays(plan: PottedGround, member: Member, grids?: GridStore): Generator<Progress, GroundOutcome> {
  const own = memberPlan(plan, member);
  const { grid, spacing } = own.bed;
  const corner = Math.PI / sidesOf(grid);
  const circle = yield* finishedRun(spacingProblem(own, spacing), grids);
  const cell = yield* finishedRun(spacingProblem(own, spacing, { inThreeDimensions: true }), grids);
  return {
    index: member.index,
    trouble: null,
    grid: readingOf(own, cell, { r: farthestGround(grid, spacing), angle: corner }),
    circle: readingOf(own, circle, { r: groundRadius(own), angle: 0 }),
    cells: cell.cells,
  };
}

function readingOf(plan: PottedGround, run: Run, farthest: { r: number; angle: number }): GroundReading {
  const { midwayHead, depth } = spacingReading(plan, run, plan.bed.spacing);
  return {
    midwayHead,
    farthestHead: headAt(run, { ...farthest, d: depth }),
    givenLitres: last(run.history.seepageLitres),
    drunkLitres: last(run.history.uptakeLitres),
  };
}

/**
 * Where the ground of pots on a grid is drier than a pressure head, cm: nowhere; farthest from any pot alone; between
 * neighbours too.
 */
export function dryGround({ grid }: Pick<GroundOutcome, "grid">, head: number): "none" | "middle" | "between" {
  if (grid.farthestHead >= head) return "none";
  return grid.midwayHead >= head ? "middle" : "between";
}
