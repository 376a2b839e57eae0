/** The same bed with one thing changed, and what that does to the tank. */
import { sum } from "d3-array";
import {
  bedDays,
  bedWithSupply,
  carriedShare,
  leastTank,
  potsFor,
  releaseOf,
  type SeasonBed,
  seasonProblems,
} from "../../../model/public/advice.ts";
import type { Problem, Run } from "../../../model/public/flow.ts";
import { atSpacing, DAYS_OF_YEAR, listedCrop, type Plan, type PottedGround } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { crops, rowNamed } from "../../../reference-data/load.ts";
import type { Table } from "../../notebook/notebook.ts";

export interface Change {
  name: string;
  plan: PottedGround;
  /** Its pots stand so far apart, cm; null: where they stand now. */
  spacing: number | null;
}

/** Wider apart, so that fewer pots serve the bed: our own choice. */
const WIDER = 1.25;

export function changesOf(plan: PottedGround, otherCrop: string): Change[] {
  const spacing = WIDER * plan.bed.spacing;
  const mulched = { name: "all of the ground under mulch", plan: { ...plan, mulchCover: 1 }, spacing: null };
  const bare = { name: "no mulch", plan: { ...plan, mulchCover: 0 }, spacing: null };
  return [
    ...(plan.mulchCover < 1 ? [mulched] : []),
    ...(plan.mulchCover > 0 ? [bare] : []),
    {
      name: "fewer pots",
      plan: atSpacing(plan, spacing),
      spacing,
    },
    {
      name: `${otherCrop} in place of ${plan.crop.name || "your crop"}`,
      plan: { ...plan, crop: listedCrop(rowNamed(crops(), otherCrop)) },
      spacing: null,
    },
    ...laterFilling(plan),
  ];
}

/** Pots that stand empty for a while give less, and plants may get less. */
function laterFilling(plan: PottedGround): Change[] {
  const days = plan.filling.kind === "every" ? 2 * plan.filling.days : 5;
  if (plan.filling.kind === "once" || days > 21) return [];
  return [{ name: `filled every ${days} days`, plan: { ...plan, filling: { kind: "every", days } }, spacing: null }];
}

/** All changes' runs in one list; `names` splits them again. */
export const changeProblems = (changes: readonly Change[]): Record<string, Problem> =>
  Object.fromEntries(
    changes.flatMap(({ name, plan }) =>
      Object.entries(seasonProblems(plan)).map(([month, problem]) => [`${name}: ${month}`, problem]),
    ),
  );

function runsOf(change: Change, runs: Readonly<Record<string, Run>>): Record<string, Run> {
  return Object.fromEntries(
    Object.keys(seasonProblems(change.plan)).map((month) => [month, runs[`${change.name}: ${month}`]!]),
  );
}

interface Changed {
  changes: readonly Change[];
  runs: Readonly<Record<string, Run>>;
  /** As it is. */
  bed: SeasonBed;
  /** With the bed, the roof and the tanks as they are now. */
  plan: Plan;
  wantedShare: number;
}

/** What a bed comes to. */
export interface ChangedBed {
  change: Change;
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

/** As it is first. Takes a while: yields between two beds. */
export function* changedBeds({ changes, runs, bed, plan, wantedShare }: Changed): Generator<void, ChangedBed[]> {
  const asItIs = { name: "as it is", plan: bed.plan, spacing: null };
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

function changedBed(change: Change, asking: SeasonBed, plan: Plan, wantedShare: number): ChangedBed {
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

export function changesTable(beds: readonly ChangedBed[], units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const { wantedShare } = beds[0]!;
  return {
    kind: "table",
    name: "changes",
    caption: "The same bed, roof and tank with one thing changed",
    columns: [
      { heading: "bed" },
      { heading: "pots", digits: 0 },
      { heading: `full pots give a year (${volume})`, digits: 0 },
      { heading: "years carried (%)", digits: 0 },
      { heading: `tank for ${Math.round(100 * wantedShare)} of 100 years (${volume})` },
      { heading: "least thirst met in a month (%)", digits: 0 },
    ],
    rows: beds.map(({ change: { name, spacing }, pots, given, carried, tank, leastMet }) => [
      spacing === null ? name : `${name}, ${formatBoth(spacing, "length", units)} apart`,
      pots,
      fromModel(given, "volume", units),
      100 * carried,
      tank === null ? "none does" : String(Number(fromModel(tank, "volume", units).toPrecision(2))),
      Math.round(100 * leastMet),
    ]),
  };
}
