/** The steps of time of a filling: as long as the error allows, and ending where something happens at once. */

import { sum } from "d3-array";
import { entry } from "../input/lists.ts";
import { SECONDS_PER_DAY } from "../units/factors.ts";
import {
  type FillCourse,
  type FillProblem,
  potVolumes,
  type Rates,
  rateSlopes,
  ratesAt,
  startOf,
  tankHead,
  tankVolume,
} from "./fillRates.ts";
import { type At, type Happened, type Switch, switchesOf } from "./fillSwitches.ts";
import { firstZero, ROUNDING } from "./firstZero.ts";
import { networkOf } from "./network.ts";
import { rosenbrockStep } from "./rosenbrock.ts";

export interface FillRow {
  second: number;
  tankHead: number;
  /** m³. */
  potVolumes: Float64Array;
  /** Per piece, m³/s. */
  flow: Float64Array;
}

export interface FillRun {
  course: FillCourse;
  happened: Happened;
  now: At;
  second: number;
  history: FillRow[];
}

/**
 * Error allowed in one step, as shares of a pot's capacity and of what the tank still holds. It is that of first order,
 * and so far more than the true one.
 */
const STEP_ERROR = 1e-4;
const TANK_ERROR = 1e-3;
const SETTLED_SHARE = 1e-3;
const MOST_STEPS = 3000;
/** At one moment, and tries of one step. */
const MOST_TURNS = 50;
/** What happens within this margin of something else happens with it. */
const AT_ZERO = 1e-12;

export function begin(filling: FillProblem): FillRun {
  const { course, y } = startOf(filling, networkOf(filling.line));
  const never = () => filling.pots.map(() => null);
  const happened = { secondsToFull: never(), secondsToAir: never(), tankEmpty: false };
  return { course, happened, now: atWater(course, y), second: 0, history: [] };
}

function atWater(course: FillCourse, y: Float64Array, start?: Float64Array): At {
  let rates: Rates | undefined;
  return {
    y,
    rates: () => {
      rates ??= ratesAt(course, y, start);
      return rates;
    },
  };
}

/** Settled: no pot would gain or lose a thousandth of its capacity in a day more. Our own choice. */
export type FillStatus = "all full" | "tank empty" | "settled" | "time is up" | "trouble";

export function runOn(run: FillRun): FillStatus {
  let h: number | null = Number.POSITIVE_INFINITY;
  for (let k = 0; k < MOST_STEPS && h !== null; k++) {
    if (!letAllHappen(run)) return "trouble";
    record(run);
    const status = statusOf(run);
    if (status) return status;
    h = advance(run, Math.min(h, longestStep(run)));
  }
  return "trouble";
}

/** No pot gains or gives more than a tenth of its capacity; what runs over a rim changes nothing in its pot. */
function longestStep({ course, now, second }: FillRun): number {
  const { net } = now.rates();
  const tenths = course.pots.map(({ capacity }, i) =>
    course.atRim[i] ? Number.POSITIVE_INFINITY : (0.1 * capacity) / Math.abs(entry(net, i)),
  );
  return Math.min(...tenths, course.maxSeconds - second);
}

function record({ course, now, second, history }: FillRun) {
  const { y } = now;
  const row = {
    second,
    tankHead: tankHead(course, y),
    potVolumes: potVolumes(course, y),
    flow: now.rates().flows.flow,
  };
  if (history.at(-1)?.second === second) history.pop();
  history.push(row);
}

function statusOf({ course, happened, now, second }: FillRun) {
  if (happened.secondsToFull.every((full) => full !== null)) return "all full";
  const { net } = now.rates();
  const changes = Math.max(...course.pots.map(({ capacity }, i) => Math.abs(entry(net, i)) / capacity));
  if (changes * SECONDS_PER_DAY <= SETTLED_SHARE) return happened.tankEmpty ? "tank empty" : "settled";
  return second >= course.maxSeconds ? "time is up" : null;
}

const dueNow = ({ course, happened, now }: FillRun) =>
  switchesOf(course, happened).filter(({ isDue, margin }) => (isDue ? isDue(now) : margin(now) <= 0));

/** All that is due now, and what that makes due in turn; false where it comes to no end. */
function letAllHappen(run: FillRun): boolean {
  for (let turns = 0; turns < MOST_TURNS; turns++) if (!letHappen(run, dueNow(run))) return true;
  return false;
}

/** Whether anything happened. */
function letHappen(run: FillRun, due: readonly Switch[]): boolean {
  const { course, now, second } = run;
  for (const { happen } of due) happen(now.y, second);
  if (due.length > 0) run.now = atWater(course, now.y);
  return due.length > 0;
}

interface StepEnd extends At {
  /** Length of the step that leads there, s. */
  h: number;
}

interface Attempt extends StepEnd {
  /** As a share of the allowed error. */
  error: number;
}

/** Whether pots' levels act back on what they receive: through joints, or on tubes that end below their rims. */
function isStiff({ joints, ends, pots }: FillCourse): boolean {
  return joints.length > 0 || ends.some(({ outlet, height }) => height < rimOf(entry(pots, outlet.pot)));
}

const rimOf = ({ levelAt, capacity }: FillCourse["pots"][number]) => levelAt(capacity) - RIM;

/** An end so near below a rim stands at it, m. */
const RIM = 1e-6;

/** Goes on by one step of at most `longest` seconds; gives the length to try next, or null where none is short enough. */
function advance(run: FillRun, longest: number): number | null {
  const { course, now } = run;
  const rates = now.rates();
  const slopes = isStiff(course) ? rateSlopes(course, now.y, rates) : null;
  const start = rates.flows.outletFlow;
  const attempt = (h: number): Attempt => {
    const f = (at: Float64Array) => ratesAt(course, at, start).net;
    const { y, error } = rosenbrockStep(f, now.y, { rates: rates.net, slopes, h });
    return { h, ...atWater(course, noneBelowEmpty(course, y), start), error: errorOf(run, error) };
  };
  for (let [h, k] = [longest, 0]; k < MOST_TURNS; k++) {
    const tried = attempt(h);
    const crossed = switchesOf(course, run.happened).filter(({ margin }) => margin(tried) < -ROUNDING);
    // A pot that stands at its rim and is not due to stay there falls: only too long a step takes it over.
    if (tried.error <= 1 && crossed.every(({ isDue, margin }) => !isDue || margin(now) > ROUNDING)) {
      commit(run, tried, crossed, attempt);
      return h * Math.min(4, 0.9 / Math.sqrt(tried.error));
    }
    h *= Math.max(0.2, Math.min(0.5, 0.9 / Math.sqrt(tried.error)));
  }
  return null;
}

/** A step's error may leave a pot a hair below empty; those that hold water and are not full make up for it, or else the tank. */
function noneBelowEmpty({ lost, atRim }: FillCourse, y: Float64Array): Float64Array {
  const held = y.map((received, i) => (atRim[i] ? 0 : received - entry(lost, i)));
  const lacking = -sum(held, (volume) => Math.min(0, volume));
  if (lacking === 0) return y;
  const there = sum(held, (volume) => Math.max(0, volume));
  const share = there > 0 ? lacking / there : 0;
  return y.map((received, i) => {
    const volume = entry(held, i);
    return received - (volume < 0 ? volume : share * volume);
  });
}

/** As a share of the allowed error. What runs over a rim is judged by the tank's water alone. */
function errorOf({ course, happened, now }: FillRun, error: Float64Array): number {
  const shares = course.pots.map(({ capacity }, i) => (course.atRim[i] ? 0 : Math.abs(entry(error, i)) / capacity));
  const ofPots = Math.max(...shares) / STEP_ERROR;
  if (happened.tankEmpty) return ofPots;
  return Math.max(ofPots, Math.abs(sum(error)) / (TANK_ERROR * tankVolume(course, now.y)));
}

/** Takes the step, or the part of it up to the first thing that happens in it. */
function commit(run: FillRun, tried: Attempt, crossed: readonly Switch[], attempt: (h: number) => Attempt) {
  const least = (at: At) => Math.min(...crossed.map(({ margin }) => margin(at)));
  const start = { ...run.now, h: 0 };
  const end = crossed.length > 0 ? firstZero<StepEnd>(least, start, tried, attempt) : tried;
  run.second += end.h;
  run.now = end;
  const due = crossed.filter(({ margin }) => margin(end) <= AT_ZERO);
  letHappen(run, due);
}
