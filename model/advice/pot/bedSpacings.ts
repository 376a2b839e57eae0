/** What runs at several spacings say of a bed. */

import type { Problem } from "../../flow/problem.ts";
import type { Run } from "../../flow/run.ts";
import { present } from "../../input/lists.ts";
import type { UnspacedGround } from "../../plan/planPart.ts";
import {
  type SpacingAdvice,
  type SpacingReading,
  spacingAdvice,
  spacingProblem,
  spacingReading,
  triedSpacings,
} from "./spacing.ts";

export interface BedSpacings {
  plan: UnspacedGround;
  readings: SpacingReading[];
  advice: SpacingAdvice;
}

type Problems = Record<string, Problem>;

/** One of the beds that are compared, by its name, or the plan's own. */
export type Beds = Readonly<Record<string, UnspacedGround>>;

const nameOf = (bed: string, spacing: number) => `${bed}, pots ${Math.round(spacing)} cm apart`;

/** The runs of some beds, each at several spacings. */
export function spacingProblems(beds: Beds): Problems {
  const all = Object.entries(beds).flatMap(([bed, plan]) =>
    triedSpacings(plan).map((spacing) => [nameOf(bed, spacing), spacingProblem(plan, spacing)] as const),
  );
  return Object.fromEntries(all);
}

/** What the runs of `spacingProblems` say of one of the beds. */
export function bedSpacings(plan: UnspacedGround, bed: string, runs: Readonly<Record<string, Run>>): BedSpacings {
  const readings = triedSpacings(plan).map((spacing) =>
    spacingReading(plan, present(runs[nameOf(bed, spacing)], `run of ${nameOf(bed, spacing)}`), spacing),
  );
  return { plan, readings, advice: spacingAdvice(plan, readings) };
}
