/** What runs at several spacings say of a bed. */

import {
  type SpacingAdvice,
  type SpacingReading,
  spacingAdvice,
  spacingProblem,
  spacingReading,
  triedSpacings,
} from "../../../model/public/advice.ts";
import type { Problem, Run } from "../../../model/public/flow.ts";
import type { UnspacedGround } from "../../../model/public/plan.ts";

export interface Found {
  plan: UnspacedGround;
  readings: SpacingReading[];
  advice: SpacingAdvice;
}

type Problems = Record<string, Problem>;

/** One of the beds that are compared, by its name, or the plan's own. */
export type Beds = Readonly<Record<string, UnspacedGround>>;

const nameOf = (bed: string, spacing: number) => `${bed}, pots ${Math.round(spacing)} cm apart`;

/** The runs of some beds, each at several spacings. */
export function problemsOf(beds: Beds): Problems {
  const all = Object.entries(beds).flatMap(([bed, plan]) =>
    triedSpacings(plan).map((spacing) => [nameOf(bed, spacing), spacingProblem(plan, spacing)] as const),
  );
  return Object.fromEntries(all);
}

/** What the runs of `problemsOf` say of one of the beds. */
export function foundOf(plan: UnspacedGround, bed: string, runs: Readonly<Record<string, Run>>): Found {
  const readings = triedSpacings(plan).map((spacing) => spacingReading(plan, runs[nameOf(bed, spacing)]!, spacing));
  return { plan, readings, advice: spacingAdvice(plan, readings) };
}
