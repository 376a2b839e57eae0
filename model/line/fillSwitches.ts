/** What changes at once while pots fill: a pot becomes full, the tank empty, air enters a high place. */
import { entry } from "../input/lists.ts";
import { type FillCourse, isHeld, type Rates, tankHead, tankVolume } from "./fillRates.ts";
import { ROUNDING } from "./firstZero.ts";

/** Something that happens when `margin` falls to 0. Between such moments all rates are smooth or nearly so. */
export interface Switch {
  margin(at: At): number;
  /** Whether it happens where things stand, before any step; where `margin` is 0 or less unless said otherwise. */
  isDue?(at: At): boolean;
  happen(y: Float64Array, second: number): void;
}

/** Water that pots have received, and the rates at that. */
export interface At {
  y: Float64Array;
  rates(): Rates;
}

/** What has happened to each pot, and to the tank. */
export interface Happened {
  secondsToFull: (number | null)[];
  /** When a high place of its line stood out of the tank's water, and stopped all. */
  secondsToAir: (number | null)[];
  tankEmpty: boolean;
}

/** Shares of the tank's water, m, and shares of a pot's volume per second: less is nothing. */
const NOTHING = 1e-8;
const NO_RATE = 1e-11;
/** Water that covers a tube's end again by this much, m, can flow back. */
const COVERED = 1e-4;
/** Share of its capacity that a joined pot may lack and is called full: our own choice. */
const NEARLY_FULL = 1e-3;

/** All that may happen next. */
export function switchesOf(course: FillCourse, happened: Happened): Switch[] {
  return [
    ...course.pots.map((_, pot) => (course.atRim[pot] ? offRim(course, pot) : toRim(course, pot, happened))),
    ...course.pots.flatMap((_, pot) => (isJoined(course, pot) ? nearlyFull(course, pot, happened) : [])),
    ...course.ends.flatMap((_, end) => outletSwitches(course, end, happened)),
    ...(happened.tankEmpty ? [] : [tankRunsEmpty(course, happened)]),
  ];
}

function toRim(course: FillCourse, pot: number, happened: Happened): Switch {
  const { capacity } = entry(course.pots, pot);
  const margin = ({ y }: At) => 1 - (entry(y, pot) - entry(course.lost, pot)) / capacity;
  // One that has just left its rim stands there still, at a rate that is nothing yet: it is not to go back.
  const least = happened.secondsToFull[pot] === null ? 0 : NO_RATE * capacity;
  return {
    margin,
    isDue: (at) => margin(at) <= ROUNDING && entry(at.rates().net, pot) >= least,
    happen: (y, second) => {
      y[pot] = capacity + entry(course.lost, pot);
      course.atRim[pot] = true;
      happened.secondsToFull[pot] ??= second;
    },
  };
}

const isJoined = ({ joints, joined }: FillCourse, pot: number) =>
  joined || joints.some(({ a, b }) => a === pot || b === pot);

/** Joined pots near their rims ever more slowly, so that one counts as full a little before. */
function nearlyFull(course: FillCourse, pot: number, happened: Happened): Switch[] {
  if (happened.secondsToFull[pot] !== null) return [];
  const happen = (_: Float64Array, second: number) => {
    happened.secondsToFull[pot] = second;
  };
  return [{ margin: (at) => toRim(course, pot, happened).margin(at) - NEARLY_FULL, happen }];
}

/** A pot that runs over leaves its rim when it gives more than it gets; a held one when its tubes cannot make up for it. */
function offRim(course: FillCourse, pot: number): Switch {
  const { capacity } = entry(course.pots, pot);
  const held = course.ends.flatMap(({ outlet }, k) => (outlet.pot === pot && isHeld(course, k) ? [k] : []));
  return {
    margin: ({ rates }) => {
      const { net, flows } = rates();
      if (held.length === 0) return entry(net, pot) / capacity + NO_RATE;
      return Math.min(
        ...held.map((k) =>
          entry(flows.outletFlow, k) > 0 || course.ways[k] === "both ways" ? entry(flows.left, k) : 1,
        ),
      );
    },
    happen: (y) => {
      course.lost[pot] = entry(y, pot) - capacity;
      course.atRim[pot] = false;
    },
  };
}

function outletSwitches(course: FillCourse, k: number, happened: Happened): Switch[] {
  const { crest, height, outlet } = entry(course.ends, k);
  const way = entry(course.ways, k);
  if (way === "shut") return [];
  const air: Switch = {
    margin: ({ y }) => tankHead(course, y) - crest,
    happen: (_, second) => {
      course.ways[k] = "shut";
      happened.secondsToAir[outlet.pot] ??= second;
    },
  };
  if (!course.joined) return [air];
  const lowest = Math.max(height, entry(course.pots, outlet.pot).levelAt(0));
  const over = (levels: Float64Array) => entry(levels, outlet.pot) - lowest;
  const turned: Switch = {
    margin: ({ rates }) => (way === "out" ? COVERED - over(rates().levels) : over(rates().levels)),
    happen: () => {
      course.ways[k] = way === "out" ? "both ways" : "out";
    },
  };
  return [air, turned];
}

function tankRunsEmpty(course: FillCourse, happened: Happened): Switch {
  return {
    margin: ({ y }) => tankVolume(course, y) / (course.tank.volume || 1) - NOTHING,
    happen: () => {
      happened.tankEmpty = true;
      course.ways.fill("shut");
    },
  };
}
