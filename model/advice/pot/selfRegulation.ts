/** Whether a pot gives more where plants take more. */

import { range, sum } from "d3-array";
import { sampleField } from "../../flow/field.ts";
import type { Problem } from "../../flow/problem.ts";
import type { Frame, Run } from "../../flow/run.ts";
import { first, last } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import type { NamedStage } from "../../plants/growthStages.ts";
import { buildPot } from "../../pot/buildPot.ts";
import { wallAreaBetween } from "../../pot/outerSurface.ts";
import type { Pot } from "../../pot/pot.ts";
import { wallRadiusAt } from "../../pot/potOutline.ts";
import { groundRadius, livingProblem } from "../../problems/livingProblem.ts";
import { CM3_PER_LITRE } from "../../units/factors.ts";
import { daysAtLeast, onDay } from "./history.ts";
import { ENOUGH, metShare } from "./refill.ts";

/** Days for which pots are compared. */
export const COMPARED_DAYS = 14;
/** The last of them, when the ground has been wetted: our own choice. */
export const LAST_DAYS = 3;

/** The plan's pot and weather for two weeks, with plants at a stage or with nothing planted (null). */
export function stageProblem(plan: PottedGround, stage: NamedStage | null): Problem {
  return livingProblem(plan, { stage, days: range(1, COMPARED_DAYS + 1) });
}

/** The same bed, whose pot is never filled: what plants take there comes from ground, rain and watering can alone. */
export function emptyPotProblem(plan: PottedGround, stage: NamedStage): Problem {
  return { ...stageProblem(plan, stage), filling: { kind: "refilled", atDays: [] } };
}

/** Two weeks, litres a day. */
export interface PotWaterUse {
  given: number;
  wanted: number;
  taken: number;
  /** From rain and the watering can, as far as the soil took it up. */
  rained: number;
  evaporated: number;
  drained: number;
  /** By how much the ground has become wetter. */
  kept: number;
  givenByDay: number[];
  wantedByDay: number[];
  takenByDay: number[];
  /** Days in all that the pot stood empty. */
  emptyDays: number;
  /** Share of what plants wanted which they got, in the two weeks and in the last days; 1 where they wanted nothing. */
  met: number;
  metAtEnd: number;
}

/** Where a pot's water went in a run of `COMPARED_DAYS`: litres a day on average, or by day. */
export function potWaterUse(plan: PottedGround, run: Run): PotWaterUse {
  const { history } = run;
  // Without the −0 of roots that are not there.
  const daily = (values: readonly number[]) => last(values) / COMPARED_DAYS + 0;
  const byDay = (values: readonly number[]) =>
    range(COMPARED_DAYS).map((day) => onDay(run, values, day + 1) - onDay(run, values, day));
  const given = daily(history.seepageLitres);
  const taken = daily(history.uptakeLitres);
  const rained = daily(history.rainLitres);
  const evaporated = daily(history.evaporationLitres);
  const drained = daily(history.drainageLitres);
  return {
    ...{ given, taken, rained, evaporated, drained, wanted: daily(history.wantedLitres) },
    kept: given + rained - taken - evaporated - drained,
    givenByDay: byDay(history.seepageLitres),
    wantedByDay: byDay(history.wantedLitres),
    takenByDay: byDay(history.uptakeLitres),
    emptyDays: emptyDays(buildPot(plan.pot), run),
    met: metShare(run, 0, COMPARED_DAYS),
    metAtEnd: metShare(run, COMPARED_DAYS - LAST_DAYS, COMPARED_DAYS),
  };
}

/** A level so near to the inner base is that of an empty pot, cm. */
const HAIR = 1e-6;

function emptyDays({ emptyDepth }: Pot, { history }: Run): number {
  return daysAtLeast({ day: history.day, value: history.waterLevelDepth }, emptyDepth - HAIR);
}

/**
 * Share of what plants took that they would not have had without the pot: one less what they took in the same bed with an
 * empty pot over what they took with a filled one. Between 0 and 1; 0 too where they took nothing, or less for the pot.
 */
export function shareByPot(filled: Pick<PotWaterUse, "taken">, empty: Pick<PotWaterUse, "taken">): number {
  return filled.taken > 0 ? Math.max(1 - empty.taken / filled.taken, 0) : 0;
}

/** Rises in what the pot gives, full-grown plants against none, up to which the answer is “hardly” and “a little”: our own choice. */
export const HARDLY = 0.1;
export const A_LITTLE = 0.3;

/** A pot that is empty for a larger share of the days gives its fillings and no more: our own choice. */
const OFTEN_EMPTY = 0.1;

/** A larger rise of the share at the end is worth a mention: our own choice. */
const CLEARLY = 0.05;

/** With nothing planted, and with full-grown plants. */
interface PotWaterUses {
  bare: Pick<PotWaterUse, "given" | "emptyDays" | "givenByDay">;
  grown: Pick<PotWaterUse, "given">;
}

/** What is given more with full-grown plants, as a share of what is given with nothing planted; 0 where nothing is. */
export const riseWithPlants = ({ bare, grown }: PotWaterUses): number =>
  bare.given > 0 ? grown.given / bare.given - 1 : 0;

/** The answer in a word to a rise as a share, 0.1 for 10 % more. */
export function riseVerdict(rise: number): "no" | "hardly" | "a little" | "noticeably" {
  if (rise < 0) return rise < -HARDLY ? "no" : "hardly";
  if (rise < HARDLY) return "hardly";
  return rise < A_LITTLE ? "a little" : "noticeably";
}

/** Whether the filling decides what is given, and not what the wall can pass. */
export function isFillingShort(uses: PotWaterUses): boolean {
  const { emptyDays, givenByDay } = uses.bare;
  return emptyDays >= OFTEN_EMPTY * givenByDay.length && riseWithPlants(uses) < HARDLY;
}

/** Whether plants get enough at the end, and clearly more than before. */
export const isBetterAtEnd = ({ met, metAtEnd }: PotWaterUse): boolean => metAtEnd >= Math.max(ENOUGH, met + CLEARLY);

/** Pressure head at the depth of most roots (or of the pot's base, where it ends higher), so far from the wall, cm. */
export function headFromWall(plan: PottedGround, { grid }: Run, { h }: Frame, distance: number): number {
  const wall = wallRadiusAt(plan.pot, Math.min(plan.rootDepth, plan.pot.outerDepth));
  return sampleField(grid, h, Math.min(wall + distance, groundRadius(plan)), plan.rootDepth);
}

/** Reference evapotranspirations that are tried one against another, mm/day: from a cool grey day to a hot dry one. */
export const TRIED_DEMANDS = [2, 4, 6, 8];

/** Days for which the release is taken, the ground about the pot being wetted before. */
const DEMAND_DAYS = [7, 14] as const;

/** Full-grown plants about the plan's pot, kept full by a float, on days of one thirst (mm/day). */
export function demandProblem(plan: PottedGround, ETo: number, areGathered = false): Problem {
  const held: PottedGround = { ...plan, filling: { kind: "float" } };
  return livingProblem(held, { stage: "full grown", ETo, areGathered, days: [...DEMAND_DAYS] });
}

/** Of a run of `demandProblem`, litres a day in its second week. */
export function demandOutcome(run: Run): { given: number; taken: number } {
  const [from, to] = DEMAND_DAYS;
  const daily = (values: readonly number[]) => (onDay(run, values, to) - onDay(run, values, from)) / (to - from);
  return { given: daily(run.history.seepageLitres), taken: daily(run.history.uptakeLitres) };
}

/** How much more is given under the last of some demands than under the first, as a share; 0 where nothing is given there. */
export function riseWithDemand(given: readonly number[]): number {
  return first(given) > 0 ? last(given) / first(given) - 1 : 0;
}

export interface StraightLine {
  slope: number;
  intercept: number;
  /** Share of the spread of y that the line accounts for (R²); 1 where there is no spread. */
  explained: number;
}

/** Share of the spread from which on a line describes a relation well: our own choice. */
const STRAIGHT = 0.9;

/** Whether the points lie close enough to their line for the relation to be called linear. */
export const isStraight = ({ explained }: StraightLine): boolean => explained >= STRAIGHT;

/** The line with the least squared misfits in y through at least two different x. */
export function straightLine(points: readonly { x: number; y: number }[]): StraightLine {
  const [xMean, yMean] = [sum(points, ({ x }) => x) / points.length, sum(points, ({ y }) => y) / points.length];
  const slope = sum(points, ({ x, y }) => (x - xMean) * (y - yMean)) / sum(points, ({ x }) => (x - xMean) ** 2);
  const intercept = yMean - slope * xMean;
  const spread = sum(points, ({ y }) => (y - yMean) ** 2);
  const misfit = sum(points, ({ x, y }) => (y - intercept - slope * x) ** 2);
  return { slope, intercept, explained: spread > 0 ? 1 - misfit / spread : 1 };
}

/**
 * Water that the wall passes with its level at `dw`, litres a day, into soil in which water stands up to the surface. The
 * total head is 0 outside and −dw inside everywhere, so q = −Kw dw / w over the buried wall below the surface: nothing
 * where both stand equally high, and water comes in where the pot's stands lower.
 */
export function releaseIntoStandingWater(pot: Pot, dw: number): number {
  const area = wallAreaBetween(pot.outline, 0, Number.POSITIVE_INFINITY);
  // A plain 0 rather than −0 for equal heights.
  return (pot.wallConductivity * area * (0 - dw)) / pot.wallThickness / CM3_PER_LITRE + 0;
}
