/** Whether the gravity line of a bed fills every pot: how long it takes, how evenly, and who never fills. */

import { max, maxIndex, min, sum } from "d3-array";
import type { Place } from "../../bed/outline.ts";
import { entry, first, last, present } from "../../input/lists.ts";
import { uniformityCoefficient } from "../../line/evenness.ts";
import { type Fill, fillPots } from "../../line/filling.ts";
import type { FilledPot, FillProblem } from "../../line/fillRates.ts";
import { heightSearch } from "../../line/leastTankHeight.ts";
import { type Losses, lossesTo } from "../../line/losses.ts";
import type { Line } from "../../line/network.ts";
import { type Profile, profileTo } from "../../line/profile.ts";
import type { Trouble } from "../../line/solveFlows.ts";
import { solveLine } from "../../line/solveLine.ts";
import { waterSurface } from "../../plan/planSupply.ts";
import { buildPot } from "../../pot/buildPot.ts";
import { type BedLine, bedLine, type FlowingBed, type LinedBed } from "../../problems/linedBed.ts";
import { LITRES_PER_M3, M_PER_CM, SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from "../../units/factors.ts";
import { jointsOf } from "./potJoints.ts";

/**
 * Why a pot is not full in the end. `dry`: the tank ran empty; `low`: the tank's water sank to the end of its tube, or to the
 * pot's own level; `air`: it sank below a high place of the line, which then holds air; `slow`: the valve stood open for
 * `MOST_MINUTES`.
 */
export type NeverFull = "dry" | "low" | "air" | "slow";

export interface PotFilling {
  /** null: never. */
  minutes: number | null;
  why: NeverFull | null;
  litres: number;
  overflowLitres: number;
  /** Flow of its tube with the tank full, L/h. */
  startFlow: number;
}

export interface LineFilling {
  bedLine: BedLine;
  /** One per pot, in the order of the bed's. */
  pots: PotFilling[];
  /** How long the valve stays open, until the last pot is full; null where one never is. */
  valveMinutes: number | null;
  /** When the first pot is full; null where none ever is. */
  firstMinutes: number | null;
  /** The pot that is full last, or that of those never full which gets least. */
  slowest: number;
  overflowLitres: number;
  /** Christiansen's coefficients, %: of the flows at the start, and of the water got when the first pot is full; null where none flows. */
  evenness: { ofFlows: number | null; ofWater: number | null };
  /** On the way to the slowest pot with the tank full, m. */
  way: { losses: Losses; profile: Profile };
  /** L/h through each piece with the tank full. */
  flows: Float64Array;
  course: FillMoment[];
}

export interface FillMoment {
  minute: number;
  /** Above the outlet. */
  tankLitres: number;
  potLitres: Float64Array;
}

/** A valve stands open for a day at most: our own choice. */
const MOST_MINUTES = 1440;

export interface FillStart {
  /** What each pot takes until it is full; left out: pots are empty. */
  litresEach?: number;
  /** How full the tank is, 0 to 1; left out: full. */
  tankShare?: number;
}

/** An Error where no flows are found. Pots are where `pots` says, in cm from the bed's corner; there must be one at least. */
export function lineFilling(plan: FlowingBed, pots: readonly Place[], start: FillStart = {}): LineFilling {
  const laid = bedLine(plan, pots);
  const filling = fillingOf(plan, pots, laid, start);
  const fill = solved(fillPots(filling));
  const filled = pots.map((_, pot) => potFilling(filling, fill, pot));
  const minutes = filled.flatMap((pot) => (pot.minutes === null ? [] : [pot.minutes]));
  const slowest = slowestOf(filled);
  return {
    bedLine: laid,
    pots: filled,
    valveMinutes: minutes.length === pots.length ? (max(minutes) ?? null) : null,
    firstMinutes: min(minutes) ?? null,
    slowest,
    overflowLitres: sum(filled, ({ overflowLitres }) => overflowLitres),
    evenness: evennessOf(filling, fill, filled),
    way: wayTo(filling, slowest),
    flows: first(fill.history).flow.map((flow) => flow * LITRES_PER_M3 * SECONDS_PER_HOUR),
    course: fill.history.map((row) => ({
      minute: row.second / SECONDS_PER_MINUTE,
      tankLitres: (row.tankHead - filling.tank.bottom) * filling.tank.area * LITRES_PER_M3,
      potLitres: row.potVolumes.map((volume) => volume * LITRES_PER_M3),
    })),
  };
}

/** Highest place for a tank's outlet that is tried, cm: our own choice. */
export const MOST_OUTLET_HEIGHT = 1000;

/** The least height of the tank's outlet above the soil, cm, from which all pots are full in the minutes wanted. */
export type LeastOutletHeight = { height: number } | { height: null; why: NeverFull };

/** What the search rests on: whatever the height of the tank's outlet, which is what it looks for. */
export interface HeightlessBed extends Omit<FlowingBed, "tank"> {
  tank: Omit<FlowingBed["tank"], "outletHeight">;
}

/** The same bed without the height of its tank's outlet, and without what changes no flow. */
export function heightlessBed({ bed, pot, tank, line }: LinedBed): HeightlessBed {
  const [{ outletHeight, ...body }, { slack, ...flowing }] = [tank, line];
  return { bed, pot, tank: body, line: flowing };
}

/**
 * The least height of the tank's outlet, cm above the soil, that fills every pot in time. Begins with the outlet on the
 * soil; yields after each filling that is tried.
 */
export function* outletHeightSearch(bed: HeightlessBed, pots: readonly Place[]): Generator<void, LeastOutletHeight> {
  const plan: FlowingBed = { ...bed, tank: { ...bed.tank, outletHeight: 0 } };
  const { tank, line } = plan;
  const filling = fillingOf(plan, pots, bedLine(plan, pots), {});
  const found = yield* heightSearch(filling, {
    seconds: line.wantedMinutes * SECONDS_PER_MINUTE,
    least: (line.tubeEndHeight - tank.waterHeight) * M_PER_CM,
    most: MOST_OUTLET_HEIGHT * M_PER_CM,
  });
  if (found.height !== null) return { height: found.height / M_PER_CM };
  const fill = solved(found.fill);
  const whys = pots.map((_, pot) => potFilling(filling, fill, pot).why);
  return { height: null, why: present(whys.find(Boolean), "pot that is never full") };
}

function solved(fill: Fill): Fill {
  if (fill.status === "trouble") throw noFlows(fill.trouble);
  return fill;
}

function noFlows(trouble: Trouble | null): Error {
  const where = trouble && ` (${trouble.where} misses ${trouble.largestResidual.toPrecision(2)} m of head)`;
  return new Error(
    `The flows of this line could not be worked out to the end${where ?? ""}: its bores may lie too far apart.`,
  );
}

function fillingOf(plan: FlowingBed, places: readonly Place[], laid: BedLine, start: FillStart): FillProblem {
  const { tank, line } = plan;
  const pot = filledPot(plan);
  const { litresEach, tankShare = 1 } = start;
  const startVolume = litresEach === undefined ? 0 : Math.max(0, pot.capacity - litresEach / LITRES_PER_M3);
  return {
    line: laid.line,
    tank: {
      area: waterSurface(tank) * M_PER_CM ** 2,
      bottom: tank.outletHeight * M_PER_CM,
      volume: (tankShare * tank.litres) / LITRES_PER_M3,
    },
    pots: places.map(() => pot),
    startVolumes: places.map(() => startVolume),
    whenFull: line.whenFull === "stop" ? "stops" : "overflows",
    joints: jointsOf(plan, places, laid.rows),
    maxSeconds: MOST_MINUTES * SECONDS_PER_MINUTE,
  };
}

/** Depths, cm, are heights, m, with the other sign. */
function filledPot(plan: FlowingBed): FilledPot {
  const pot = buildPot(plan.pot);
  return {
    capacity: pot.capacity * M_PER_CM ** 3,
    levelAt: (volume) => -pot.levelAt(volume / M_PER_CM ** 3) * M_PER_CM,
  };
}

function potFilling({ line }: FillProblem, fill: Fill, pot: number): PotFilling {
  const { secondsToFull, gained, overflow } = entry(fill.pots, pot);
  return {
    minutes: secondsToFull === null ? null : secondsToFull / SECONDS_PER_MINUTE,
    why: secondsToFull === null ? whyNever(line, fill, pot) : null,
    litres: gained * LITRES_PER_M3,
    overflowLitres: overflow * LITRES_PER_M3,
    startFlow: entry(first(fill.history).flow, tubeOf(line, pot)) * LITRES_PER_M3 * SECONDS_PER_HOUR,
  };
}

const tubeOf = ({ pieces }: Line, pot: number): number => pieces.findIndex(({ outlet }) => outlet?.pot === pot);

/** m: a tank whose water stands no more than this above the end of a tube is level with it. */
const LEVEL = 0.001;

function whyNever(line: Line, { status, pots, history }: Fill, pot: number): NeverFull {
  const end = entry(line.pieces, tubeOf(line, pot)).height;
  if (entry(pots, pot).secondsToAir !== null) return last(history).tankHead > end + LEVEL ? "air" : "low";
  if (status === "tank empty") return "dry";
  return status === "time is up" ? "slow" : "low";
}

function slowestOf(pots: readonly PotFilling[]): number {
  const never = pots.some(({ minutes }) => minutes === null);
  const slowness = ({ minutes, litres }: PotFilling) =>
    minutes === null ? -litres : never ? Number.NEGATIVE_INFINITY : minutes;
  return maxIndex(pots, slowness);
}

function evennessOf(
  { startVolumes }: FillProblem,
  { history }: Fill,
  pots: readonly PotFilling[],
): LineFilling["evenness"] {
  const flows = pots.map(({ startFlow }) => startFlow);
  const firstFull = min(pots, ({ minutes }) => minutes) ?? Number.POSITIVE_INFINITY;
  const row = history.find(({ second }) => second >= firstFull * SECONDS_PER_MINUTE - 1e-6) ?? last(history);
  const got = Array.from(row.potVolumes, (volume, pot) => volume - entry(startVolumes, pot));
  const coefficient = (values: number[]) => (sum(values) > 0 ? uniformityCoefficient(values) : null);
  return { ofFlows: coefficient(flows), ofWater: coefficient(got) };
}

function wayTo({ line, tank, pots, startVolumes }: FillProblem, pot: number): LineFilling["way"] {
  const tankHead = tank.bottom + tank.volume / tank.area;
  const potHeads = pots.map(({ levelAt }, k) => levelAt(entry(startVolumes, k)));
  const flows = solveLine(line, { tankHead, potHeads, closed: pots.map(() => false) });
  if (flows.kind === "trouble") throw noFlows(flows);
  const piece = tubeOf(line, pot);
  return {
    losses: lossesTo(line, flows, piece, tankHead),
    profile: profileTo(line, flows, piece, { tankHead, outletHeight: tank.bottom }),
  };
}
