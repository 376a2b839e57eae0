/** The same bed with one thing changed, and what that does to the tank. */

import { sum } from "d3-array";
import { crops, rowNamed } from "../../../reference-data/load.ts";
import { DAYS_OF_YEAR } from "../../calendar/yearDays.ts";
import type { Problem } from "../../flow/problem.ts";
import type { Run } from "../../flow/run.ts";
import { present } from "../../input/lists.ts";
import type { Plan } from "../../plan/plan.ts";
import { atSpacing } from "../../plan/planBed.ts";
import { listedCrop } from "../../plan/planCrop.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { potsFor } from "../pot/spacing.ts";
import { bedWithSupply, type SeasonBed } from "./bedWithSupply.ts";
import { releaseOf } from "./release.ts";
import { seasonProblems } from "./season.ts";
import { bedDays } from "./seasonDemand.ts";
import { carriedShare } from "./seasonSupply.ts";
import { leastTank } from "./supplySize.ts";

export interface BedChange {
  name: "as it is" | "full mulch" | "no mulch" | "fewer pots" | "other crop" | "later filling";
  plan: PottedGround;
  /** Its pots stand so far apart, cm; null: where they stand now. */
  spacing: number | null;
}

/** Wider apart, so that fewer pots serve the bed: our own choice. */
const WIDER = 1.25;

/** Changes of a bed that can still be made; `otherCrop` is one of the list of crops. */
export function changesOf(plan: PottedGround, otherCrop: string): BedChange[] {
  const spacing = WIDER * plan.bed.spacing;
  const crop = listedCrop(rowNamed(crops(), otherCrop));
  const mulched: BedChange = { name: "full mulch", plan: { ...plan, mulchCover: 1 }, spacing: null };
  const bare: BedChange = { name: "no mulch", plan: { ...plan, mulchCover: 0 }, spacing: null };
  return [
    ...(plan.mulchCover < 1 ? [mulched] : []),
    ...(plan.mulchCover > 0 ? [bare] : []),
    { name: "fewer pots", plan: atSpacing(plan, spacing), spacing },
    { name: "other crop", plan: { ...plan, crop }, spacing: null },
    ...laterFilling(plan),
  ];
}

/** Pots that stand empty for a while give less, and plants may get less. */
function laterFilling(plan: PottedGround): BedChange[] {
  const days = plan.filling.kind === "every" ? 2 * plan.filling.days : 5;
  if (plan.filling.kind === "once" || days > 21) return [];
  return [{ name: "later filling", plan: { ...plan, filling: { kind: "every", days } }, spacing: null }];
}

/** All changes' runs, by the name of change and month. */
export const changeProblems = (changes: readonly BedChange[]): Record<string, Problem> =>
  Object.fromEntries(
    changes.flatMap(({ name, plan }) =>
      Object.entries(seasonProblems(plan)).map(([month, problem]) => [`${name}: ${month}`, problem]),
    ),
  );

function runsOf(change: BedChange, runs: Readonly<Record<string, Run>>): Record<string, Run> {
  return Object.fromEntries(
    Object.keys(seasonProblems(change.plan)).map((month) => [
      month,
      present(runs[`${change.name}: ${month}`], `run of ${change.name}`),
    ]),
  );
}

interface ChangesAsked {
  changes: readonly BedChange[];
  runs: Readonly<Record<string, Run>>;
  /** As it is. */
  bed: SeasonBed;
  /** With the bed, the roof and the tanks as they are now. */
  plan: Plan;
  wantedShare: number;
}

/** What a bed comes to. */
export interface ChangedBed {
  change: BedChange;
  pots: number;
  /** What full pots give in a mean year, all of them, litres. */
  given: number;
  carried: number;
  wantedShare: number;
  /** null: none that is looked at does. */
  tank: number | null;
  /** Of the months that were worked out. */
  leastMet: number;
}

/**
 * What each change would bring, the bed as it is first; `wantedShare` of years, 0 to 1. Takes a while: yields between
 * two beds.
 */
export function* changedBeds({ changes, runs, bed, plan, wantedShare }: ChangesAsked): Generator<void, ChangedBed[]> {
  const asItIs: BedChange = { name: "as it is", plan: bed.plan, spacing: null };
  const beds = [changedBed(asItIs, bed, plan, wantedShare)];
  for (const change of changes) {
    yield;
    const release = releaseOf(change.plan, runsOf(change, runs));
    const pots = change.spacing === null ? bed.asked.pots : potsFor(plan, change.spacing);
    const days = bedDays(change.plan, release, bed.asked.weather);
    const asking = { plan: change.plan, release, asked: { ...bed.asked, days, pots } };
    beds.push(changedBed(change, asking, plan, wantedShare));
  }
  return beds;
}

function changedBed(change: BedChange, asking: SeasonBed, plan: Plan, wantedShare: number): ChangedBed {
  const { release, asked } = asking;
  const { plan: own, supply } = bedWithSupply(asking, plan);
  return {
    change,
    wantedShare,
    pots: asked.pots,
    given: (sum(asked.days.drawnLitres) * asked.pots) / (asked.days.age.length / DAYS_OF_YEAR),
    carried: carriedShare(supply),
    tank: leastTank(own, asked, wantedShare),
    leastMet: Math.min(...release.knots.map(({ met }) => met)),
  };
}
