/** What two sides are given to solve, section by section. */
import { cross } from "d3-array";
import { buriedCylinder } from "../../../model/checks/loadChecks.ts";
import { seasonProblems } from "../../../model/public/advice.ts";
import { type Problem, type Run, simulateToEnd } from "../../../model/public/flow.ts";
import { resolvePlan, soundValue } from "../../../model/public/plan.ts";
import demoPlan from "../../../notebooks/demo-plan.json" with { type: "json" };
import { comparedSoils } from "../../../notebooks/notebook/comparedSoils.ts";
import { errorsOf, knownAnswers } from "../../support/errors.ts";
import { livingCylinder, livingErrors } from "../../support/living.ts";
import { jar, tapered } from "../../support/pots.ts";
import { cylinderProblem, knownProblem } from "../../support/problems.ts";
import { allCases, type SweepCase, sweepCases } from "../../support/sweep.ts";

/** What any side tells of a run. */
export type Answered = Pick<Run, "status" | "rows" | "firstEmptyDay">;

/** Largest differences by what differs, as shares. */
export type Shares = Record<string, number>;

export interface Case<R = Answered> {
  name: string;
  problem: Problem;
  /** Kept from the run before, or made anew for each run, and timed with it. */
  grid: "kept" | "fresh";
  /** null where no better answer is known. */
  errors: ((run: R) => Shares) | null;
}

export interface Section<R = Answered> {
  name: string;
  heading: string;
  /** Of so many cases that only their sums are printed; in a quarter of the rounds. */
  isLong: boolean;
  cases(): Iterable<Case<R>>;
}

const QUICK = ["live", "standard"] as const;
type Grids = readonly [Case["grid"], ...Case["grid"][]];

/** Those that a problem file can hold, and that any program can be asked; other sections than the first with the first kind of grid. */
export function filedSections(all: boolean, grids: Grids): Section[] {
  const [grid] = grids;
  return [
    {
      name: "shared",
      heading: "Test problem 'buried cylinder', errors against the known answers",
      isLong: false,
      cases: () => sharedRuns(grids),
    },
    {
      name: "pots",
      heading: "Other pots in loam kept full, errors against our reference setting",
      isLong: false,
      cases: () => otherPots(grid),
    },
    {
      name: "sweep",
      heading: "Every class, errors against our reference setting",
      isLong: true,
      cases: () => againstReference(all ? allCases() : sweepCases(), grid),
    },
  ];
}

/** Those with life, which only this model's own code can be asked. */
export const livingSections = (): Section<Run>[] => [
  {
    name: "living",
    heading: "Roots, sun and a bed mix at once, errors against our reference setting",
    isLong: false,
    cases: livingBeds,
  },
  { name: "season", heading: "A season's runs in the demo bed", isLong: false, cases: seasonRuns },
];

export function* sharedRuns(grids: Grids): Iterable<Case> {
  for (const [accuracy, grid] of cross(QUICK, grids))
    for (const known of buriedCylinder().rows)
      yield {
        name: known.name,
        problem: { ...knownProblem(known), accuracy },
        grid,
        errors: (run) => ({ ...errorsOf(run, knownAnswers(known)) }),
      };
}

const otherPots = (grid: Case["grid"]) =>
  againstReference(
    [tapered, jar].map((pot) => ({ name: pot.shape, problem: cylinderProblem({ pot }) })),
    grid,
  );

function* againstReference(named: readonly SweepCase[], grid: Case["grid"]): Iterable<Case> {
  for (const { name, problem } of named) {
    const reference = simulateToEnd({ ...problem, accuracy: "reference" });
    for (const accuracy of QUICK)
      yield {
        name,
        problem: { ...problem, accuracy },
        grid,
        errors: (run) => ({ ...errorsOf(run, reference) }),
      };
  }
}

function* livingBeds(): Iterable<Case<Run>> {
  for (const soil of comparedSoils) {
    const problem = livingCylinder(soil);
    const reference = simulateToEnd({ ...problem, accuracy: "reference" });
    for (const accuracy of QUICK)
      yield {
        name: `living bed of ${soil}`,
        problem: { ...problem, accuracy },
        grid: "kept",
        errors: (run) => ({ ...livingErrors(run, reference) }),
      };
  }
}

function* seasonRuns(): Iterable<Case> {
  const problems = seasonProblems(soundValue(resolvePlan(demoPlan)));
  for (const [accuracy, [name, problem]] of cross(QUICK, Object.entries(problems)))
    yield { name, problem: { ...problem, accuracy }, grid: "kept", errors: null };
}
