import type { LevelLaw } from "./stage.ts";
import { copyState, type FlowState, type Stepper, type StepResult, type StepTolerance } from "./timeStep.ts";

export interface March {
  /** Times on which a step must land, increasing; the march ends at the last. */
  stops: readonly number[];
  /** First step, and the largest one after a sudden change (a refill, the pot running empty), days. */
  firstStep: number;
  restartStep: number;
  /** Of a step from `state` that ends at a time. */
  toleranceAt(state: FlowState, end: number): StepTolerance;
  /** How the level follows from the release now; absent where it is held. */
  levelLaw(state: FlowState): LevelLaw | undefined;
  /** Water left in the pot, cm³; absent where it cannot run out. A step lands on 0, within `emptyWithin`. */
  remaining(state: FlowState): number | undefined;
  emptyWithin: number;
  /** Beyond so many the march ends in trouble; see `MOST_ITERATIONS`. */
  mostIterations?: number;
}

export type MarchEvent = "step" | "stop" | "empty";

export interface MarchTrouble {
  reason: string;
  day: number;
  step: number;
  cell: number;
}

export interface MarchReport {
  event: MarchEvent;
  /** Steps taken so far, those done again not counted. */
  step: number;
}

const SMALLEST_STEP = 1e-9;
/**
 * Iterations of Newton's method in a run, one more for each try, and so many more for each stop: what goes on beyond them hardly
 * gets on. A common run needs 200 to 4,000.
 */
const MOST_ITERATIONS = 20_000;
const MORE_BY_STOP = 30;
/** Of one step. */
const MOST_TRIES = 40;
const LARGEST_GROWTH = 3;
/** From one step to the next since one was not solved. */
const GROWTH_AFTER_FAILURE = 1.5;
const LARGEST_ERROR = 2;
/** By how much longer a step is than the water lasts by its outflow so far, which falls: overdrawn a little, it is soon found. */
const OVERDRAW = 1.2;
/** Share of the water before a step by which an overdrawn try is near enough to interpolate. */
const NEARLY_EMPTY = 0.1;

/**
 * Steps `state` through time; after every step it holds the state reached. The caller may change it (a refill) before
 * asking for the next, and then answers "restart". The size of a step follows the estimated error: the next one is 0.85 error^(−1/2) times
 * as long, and one with twice the allowed error is done again.
 */
export function* march(
  state: FlowState,
  plainStepper: Stepper,
  plan: March,
): Generator<MarchReport, MarchTrouble | undefined, "restart" | undefined> {
  const stepper = counted(plainStepper);
  const { cost } = stepper;
  const { mostIterations = MOST_ITERATIONS + MORE_BY_STOP * plan.stops.length } = plan;
  let dt = plan.firstStep;
  let step = 0;
  const grownAfter = carefulGrowth();
  /** Of the last step, cm³/day. */
  let outflow = 0;
  const trouble = (reason: string, cell: number): MarchTrouble => ({ reason, day: state.t, step: step + 1, cell });
  const restart = () => {
    stepper.forget();
    dt = Math.min(dt, plan.restartStep);
  };
  const nextStop = () => plan.stops.find((stop) => stop > state.t);
  for (let stop = nextStop(); stop !== undefined; stop = nextStop()) {
    const tried = goodStep(state, stepper, plan, stop, dt, outflow);
    const { isGood, asked, lands, result } = tried;
    if (!isGood) return trouble(reasonOf(result), result.worstCell);
    outflow = (stepper.next.release - state.release) / result.size;
    copyState(stepper.next, state);
    if (lands) state.t = stop;
    step++;
    if (cost.iterations > mostIterations) return trouble("too many iterations", cost.worstCell);
    const grown = grownAfter(tried);
    dt = lands ? Math.max(grown, asked) : grown;
    if (runsEmpty(plan, state)) {
      state.pot.isEmpty = true;
      restart();
      yield { event: "empty", step };
    }
    const answer = yield { event: lands ? "stop" : "step", step };
    if (answer === "restart") restart();
  }
  return undefined;
}

/** The stepper, with the iterations of its tries so far, and the worst cell of the last one that was not solved. */
function counted(stepper: Stepper) {
  const cost = { iterations: 0, worstCell: 0 };
  const attempt: Stepper["attempt"] = (...asked) => {
    const result = stepper.attempt(...asked);
    cost.iterations += result.iterations + 1;
    if (!result.isSolved) cost.worstCell = result.worstCell;
    return result;
  };
  return { ...stepper, attempt, cost };
}

/** Whether the step has used up the water of a pot that still had some. */
function runsEmpty({ remaining, emptyWithin }: March, state: FlowState): boolean {
  return !state.pot.isEmpty && (remaining(state) ?? Number.POSITIVE_INFINITY) <= emptyWithin;
}

/** The last try of a step. */
interface Tried {
  isGood: boolean;
  /** Whether a try before it was not solved. */
  hasFailed: boolean;
  size: number;
  /** The size it would have had without a stop near by. */
  asked: number;
  /** Whether it ends on the stop. */
  lands: boolean;
  result: StepResult;
}

/**
 * Tries a step of size `dt` towards `stop`, or one that just overdraws the pot by its outflow so far; then shorter ones until
 * one is good, or no shorter one is worth a try.
 */
function goodStep(state: FlowState, stepper: Stepper, plan: March, stop: number, dt: number, outflow: number): Tried {
  const overdrawn: Overdrawn[] = [];
  const left = outflow > 0 ? plan.remaining(state) : undefined;
  const enough = left === undefined ? dt : (OVERDRAW * left) / outflow;
  let hasFailed = false;
  for (let [asked, tries] = [Math.min(dt, enough), 1]; ; tries++) {
    const { size, lands } = landing(state.t, stop, asked);
    const tolerance = plan.toleranceAt(state, lands ? stop : state.t + size);
    const result = stepper.attempt(state, size, tolerance, plan.levelLaw(state));
    const shorter = shorterStep(plan, state, stepper.next, size, result, overdrawn);
    if (shorter === undefined)
      return { isGood: true, hasFailed, size, asked, lands: lands && result.size === size, result };
    if (!result.isSolved) stepper.forget();
    hasFailed ||= !result.isSolved;
    if (shorter < SMALLEST_STEP || tries > MOST_TRIES) return { isGood: false, hasFailed, size, asked, lands, result };
    asked = shorter;
  }
}

const reasonOf = ({ misfit }: StepResult) =>
  Number.isNaN(misfit) ? "no flow was found, however short the time step" : "the time step became too small";

/** How long the next step may be, in days: after one that was not solved it grows little by little. */
function carefulGrowth(): (tried: Tried) => number {
  let longest = Number.POSITIVE_INFINITY;
  return ({ hasFailed, size, result }) => {
    longest = GROWTH_AFTER_FAILURE * (hasFailed ? size : longest);
    return Math.min(size * growthAfter(result), longest);
  };
}

/** How much longer the next step may be. */
function growthAfter({ error }: StepResult): number {
  return Math.min(0.85 / Math.sqrt(error), LARGEST_GROWTH);
}

/** A step that took more water than the pot held. */
interface Overdrawn {
  size: number;
  /** Below 0, cm³. */
  left: number;
}

/** The size with which a step must be tried again; undefined when it was good. Gathers the overdrawn tries. */
function shorterStep(
  plan: March,
  from: FlowState,
  to: FlowState,
  size: number,
  result: StepResult,
  overdrawn: Overdrawn[],
) {
  if (!result.isSolved) return 0.3 * size;
  if (result.error > LARGEST_ERROR) return size * Math.max(growthAfter(result), 0.2);
  const [before, left] = [plan.remaining(from), plan.remaining(to)];
  if (before === undefined || left === undefined || left >= -plan.emptyWithin) return undefined;
  const shorter = sizeThatEmpties(before, overdrawn, { size: result.size, left });
  overdrawn.push({ size: result.size, left });
  return shorter;
}

/**
 * Size at which nothing is left: in proportion from the last try; once that is near, by inverse interpolation through no
 * step at all and the last two tries, unless they lie so close that what Newton's method left over leads it astray.
 */
function sizeThatEmpties(before: number, tries: readonly Overdrawn[], last: Overdrawn): number {
  const straight = ({ size, left }: Overdrawn) => (size * before) / (before - left);
  const previous = tries.at(-1);
  const plain = straight(last);
  if (!previous || last.left < -NEARLY_EMPTY * before) return plain;
  const size = (plain * previous.left - straight(previous) * last.left) / (previous.left - last.left);
  return size > plain / 2 && size < last.size ? size : plain;
}

/** A step no longer than `dt` that lands on `stop`, or leaves a step of like size before it. */
function landing(t: number, stop: number, dt: number): { size: number; lands: boolean } {
  const left = stop - t;
  if (left <= dt) return { size: left, lands: true };
  return { size: left < 2 * dt ? left / 2 : dt, lands: false };
}
