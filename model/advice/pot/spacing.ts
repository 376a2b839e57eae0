import { ascending, pairs } from "d3-array";
import { layOutPots } from "../../bed/layout.ts";
import { LEAST_SPACING } from "../../bed/potGrid.ts";
import { sampleField } from "../../flow/field.ts";
import type { Accuracy, Problem } from "../../flow/problem.ts";
import type { Run } from "../../flow/run.ts";
import { entry, first, last } from "../../input/lists.ts";
import type { Plan } from "../../plan/plan.ts";
import { atSpacing, type BedPlan, type EdgeOfPots, edgeDistanceAt, widestRadius } from "../../plan/planBed.ts";
import type { UnspacedGround } from "../../plan/planPart.ts";
import { ageOf } from "../../plants/growthStages.ts";
import { rootReach } from "../../plants/rootGrowth.ts";
import type { PotShape } from "../../pot/pot.ts";
import { edgeIndex } from "../../problems/bareProblem.ts";
import { livingProblem, rootGrowthOf } from "../../problems/livingProblem.ts";
import { onDay } from "./history.ts";

/** How far apart pots may stand: the largest spacing at which easy water still meets midway, just before a refill. */
export interface SpacingAdvice {
  /**
   * `found`; `none`: even the nearest pots leave a dry strip; `beyond`: easy water meets even at the largest spacing tried, so
   * that pots do not limit it.
   */
  kind: "found" | "none" | "beyond";
  /** For `none` the least spacing tried, for `beyond` the largest; cm, from the middle of a pot to the middle of the next. */
  spacing: number;
  /** Nearer than this the ground midway stays too wet for the crop's roots; null where no spacing tried is so near. */
  soakedUntil: number | null;
}

/** What a run says of the ground midway between two pots. */
export interface SpacingReading {
  spacing: number;
  /** Pressure head, cm, at the depth of most roots on the day of the reading. */
  midwayHead: number;
  depth: number;
  /**
   * Easy water does not reach down to where most roots would be: read at its lower end on the pot's axis instead, or where
   * roots are if there is none.
   */
  isCapped: boolean;
}

/** Farther apart than this pots are not tried, cm: by then each serves 6 m². */
export const MOST_SPACING = 250;

/** The least spacing that leaves soil between pots, cm. */
export const leastSpacing = ({ pot }: Pick<Plan, "pot">): number => LEAST_SPACING * 2 * widestRadius(pot);

/** Tried side by side, cm: closest together where most answers lie. */
const TRIED = [30, 40, 45, 50, 55, 60, 65, 70, 80, 100, 130];

/** Spacings that are tried side by side, from the least that leaves soil between pots; cm. */
export function triedSpacings(plan: Pick<Plan, "pot">): number[] {
  const least = leastSpacing(plan);
  return [least, ...TRIED.filter((spacing) => spacing > least + 2)];
}

/**
 * The day on which a run is read: just before the last refill within the days looked ahead; the last of these where
 * none falls into them.
 */
export function readingDay({ filling, days }: Pick<Plan, "filling" | "days">): number {
  if (filling.kind !== "every" || filling.days > days) return days;
  return Math.floor(days / filling.days + 1e-9) * filling.days;
}

/**
 * The run that a reading is taken from: the plan's plants drink in its month, pots stand `spacing` cm apart, their own
 * ground about each.
 */
export function spacingProblem(
  plan: UnspacedGround,
  spacing: number,
  options: { accuracy?: Accuracy; inThreeDimensions?: boolean } = {},
): Problem {
  return livingProblem(atSpacing(plan, spacing), { stage: plan.plantStage, days: [readingDay(plan)], ...options });
}

/** Reads a run of `spacingProblem` that came to its end; spacing and depths in cm. */
export function spacingReading(plan: UnspacedGround, run: Run, spacing: number): SpacingReading {
  const rooted = activeRootDepth(plan);
  const wet = onDay(run, entry(run.history.edges, edgeIndex(plan, "easyWater")).wettedDepth, readingDay(plan));
  const depth = wet > 0 ? Math.min(rooted, wet) : rooted;
  const midwayHead = headAt(run, { r: spacing / 2, d: depth });
  return { spacing, midwayHead, depth, isCapped: wet < rooted };
}

/**
 * Pressure head at a place when a run ends, cm, straight in the logarithm of suction between cells: straight in the head
 * itself, one dry cell would dry the whole way to it.
 */
export function headAt({ grid, frames }: Run, { r, d, angle }: { r: number; d: number; angle?: number }): number {
  return -Math.exp(sampleField(grid, last(frames).h.map(lnSuction), r, d, angle));
}

/** Depth of most roots on the day of the reading, cm: the plan's for full-grown plants, in proportion for younger ones. */
export function activeRootDepth(plan: UnspacedGround): number {
  const age = ageOf(plan.crop.stageDays, plan.plantStage) + readingDay(plan);
  return plan.rootDepth * Math.min(1, rootReach(rootGrowthOf(plan), age).depth / plan.crop.deepestRoots);
}

/** What readings at several spacings say together, in any order; at least one. */
export function spacingAdvice(plan: Pick<Plan, "crop">, readings: readonly SpacingReading[]): SpacingAdvice {
  const sorted = [...readings].sort((one, other) => ascending(one.spacing, other.spacing));
  const { easyWaterHead, tooWetHead } = plan.crop;
  const soakedUntil = wetUntil(sorted, tooWetHead);
  const spacing = wetUntil(sorted, easyWaterHead);
  if (spacing === null) return { kind: "none", spacing: first(sorted).spacing, soakedUntil };
  return { kind: spacing === last(sorted).spacing ? "beyond" : "found", spacing, soakedUntil };
}

/**
 * Going outward from the nearest, the spacing from which the ground midway is no wetter than a head, straight in the logarithm
 * of suction between two readings; the largest spacing where it is wetter in all of them, null where in none.
 */
function wetUntil(sorted: readonly SpacingReading[], head: number): number | null {
  if (first(sorted).midwayHead < head) return null;
  const [wet, dry] = pairs(sorted).find(([, next]) => next.midwayHead < head) ?? [];
  if (!wet || !dry) return last(sorted).spacing;
  const [from, to, at] = [wet.midwayHead, dry.midwayHead, head].map(lnSuction) as [number, number, number];
  return wet.spacing + ((at - from) / (to - from)) * (dry.spacing - wet.spacing);
}

/** Soil wetter than this counts as saturated, cm. */
const WETTEST = -1;
const lnSuction = (h: number) => Math.log(-Math.min(h, WETTEST));

/** First spacing tried where nothing better is known, cm; from one spacing to the next while looking for a dry one, or a wet one. */
const FIRST = 60;
const STRIDE = 1.25;
/** Two spacings this near, the one too wide and the other not, are near enough to interpolate, cm. */
const NARROW = 3;

/**
 * Finds the largest spacing with few runs, live ones: yields a problem at a time and is handed its run, which came to its end.
 * `near` is where to begin, cm. To about 1 cm of what live runs at every spacing would say, in sand, where suction jumps
 * from one centimetre to the next, to 2.
 */
export function* searchSpacing(
  plan: UnspacedGround,
  { near = FIRST }: { near?: number } = {},
): Generator<Problem, SpacingAdvice, Run> {
  const least = leastSpacing(plan);
  const { easyWaterHead } = plan.crop;
  const readings: SpacingReading[] = [];
  let [wet, dry] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let spacing: number | undefined = Math.min(Math.max(near, least), MOST_SPACING);
  while (spacing !== undefined) {
    const run = yield spacingProblem(plan, spacing, { accuracy: "live" });
    const reading = spacingReading(plan, run, spacing);
    readings.push(reading);
    if (reading.midwayHead < easyWaterHead) dry = spacing;
    else wet = spacing;
    spacing = nextSpacing(wet, dry, least);
  }
  return spacingAdvice(plan, readings);
}

/** Undefined where the largest spacing is known well enough. */
function nextSpacing(wet: number, dry: number, least: number): number | undefined {
  if (wet >= MOST_SPACING || dry <= least || dry - wet <= NARROW) return undefined;
  if (dry === Number.POSITIVE_INFINITY) return Math.min(wet * STRIDE, MOST_SPACING);
  if (wet === Number.NEGATIVE_INFINITY) return Math.max(dry / STRIDE, least);
  return (wet + dry) / 2;
}

/** What of a bed seen from above decides how many pots it takes at a spacing that is tried. */
export type CountedBed = Pick<BedPlan, "outline" | "grid" | "rowAngle"> & EdgeOfPots;

/** The parts of a bed that decide how many pots it takes; cm. */
export function countedBed({ outline, grid, rowAngle, isEdgeUsual, edgeDistance }: BedPlan): CountedBed {
  return { outline, grid, rowAngle, ...(isEdgeUsual ? { isEdgeUsual } : { isEdgeUsual, edgeDistance }) };
}

/** Number of pots that the bed takes at a spacing in cm. */
export const potsFor = ({ bed, pot }: { bed: CountedBed; pot: PotShape }, spacing: number): number =>
  layOutPots(bed.outline, { ...bed, spacing, edgeDistance: edgeDistanceAt({ bed, pot }, spacing) }).length;
