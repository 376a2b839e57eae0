import { least, range } from "d3-array";
import type { Filling, Problem } from "../../flow/problem.ts";
import type { Run } from "../../flow/run.ts";
import { entry, present } from "../../input/lists.ts";
import { type PlanPart, POTTED_GROUND, type PottedGround, planPart } from "../../plan/planPart.ts";
import { START_MOISTURE } from "../../plan/typed/startMoisture.ts";
import { buildPot } from "../../pot/buildPot.ts";
import { type LivingOptions, livingProblem } from "../../problems/livingProblem.ts";
import { headOfSuction } from "../../units/units.ts";
import { hardGroundCause } from "./hardGround.ts";
import { firstDayAtLeast, onDay } from "./history.ts";

/** Plants suffer where they get less than this share of the water they want: our own choice. */
export const ENOUGH = 0.9;

/** Days of the plan's refills before the filling that is watched, and days for which that one is watched. */
export const RUN_IN_DAYS = 14;
export const WATCHED_DAYS = 14;

const LAST_DAY = RUN_IN_DAYS + WATCHED_DAYS;

/** Days between refills that are tried one against another. */
export const TRIED_INTERVALS = [1, 2, 3, 4, 5, 7, 10, 14];

/** How one filling fares in a bed that has been refilled before; a float's pot has none of its days. */
export interface WatchedFilling {
  /** Run day of the refill. */
  fromDay: number;
  /** Poured in by it, litres; for a float in a day. */
  litres: number;
  /** Days after the refill until a quarter is left, until the pot is empty, until plants suffer; null when not yet by the end. */
  quarterDays: number | null;
  emptyDays: number | null;
  sufferDays: number | null;
  /** Whether most of the roots that do not drink freely stand too dry then, or too wet; null where plants do not suffer. */
  sufferCause: "dry" | "wet" | null;
  /** Share of the water that plants want which they got, from the refill before this one to this one. */
  metBefore: number;
}

/** What intervals are tried on: whatever the plan's own way of filling. */
const UNFILLED_GROUND = POTTED_GROUND.filter((name) => name !== "filling");
export type UnfilledGround = PlanPart<(typeof UNFILLED_GROUND)[number]>;
/** What intervals are tried on, picked from a plan. */
export const unfilledGround = (plan: UnfilledGround): UnfilledGround => planPart(plan, UNFILLED_GROUND);

type Changes = Partial<Omit<LivingOptions, "days" | "filling">>;

/** The plan's refills for a fortnight, the last of them then watched without another; the plan's stage unless changed. */
export function watchedProblem(plan: PottedGround, changes: Changes = {}): Problem {
  return living(plan, watchedFilling(plan), changes);
}

/**
 * Four weeks of refills every `every` days, from ground that has no more water of its own to give: a dry bed at least.
 */
export function intervalProblem(ground: UnfilledGround, every: number, changes: Changes = {}): Problem {
  const startHead = Math.min(ground.startHead, headOfSuction(START_MOISTURE.dry));
  const plan: PottedGround = { ...ground, filling: { kind: "every", days: every } };
  return living(plan, { kind: "refilled", atDays: range(0, LAST_DAY, every) }, { startHead, ...changes });
}

function living(plan: PottedGround, filling: Filling | undefined, changes: Changes): Problem {
  const days = range(1, LAST_DAY + 1);
  return livingProblem(plan, { stage: plan.plantStage, days, ...(filling && { filling }), ...changes });
}

function watchedFilling({ filling }: PottedGround): Filling | undefined {
  if (filling.kind !== "every") return undefined;
  return { kind: "refilled", atDays: range(0, RUN_IN_DAYS + 1e-9, filling.days) };
}

/** Reads a run of `watchedProblem`: litres, and shares of the water that plants want. */
export function watchedOutcome(plan: PottedGround, run: Run): WatchedFilling {
  const isHeld = plan.filling.kind === "float";
  const every = plan.filling.kind === "every" ? plan.filling.days : 1;
  const fromDay = plan.filling.kind === "once" ? 0 : Math.floor(RUN_IN_DAYS / every + 1e-9) * every;
  const { history } = run;
  const start = history.day.lastIndexOf(fromDay);
  const since = (day: number | null) => (day === null ? null : day - fromDay);
  const pot = buildPot(plan.pot);
  const shareUsed = history.waterLevelDepth.map((dw) => 1 - pot.volumeAt(dw) / pot.capacity);
  const usedUp = (share: number) =>
    firstDayAtLeast({ day: history.day.slice(start), value: shareUsed.slice(start) }, share);
  const suffers = sufferDay(run, fromDay);
  const before = Math.max(fromDay - every, 0);
  return {
    fromDay,
    litres: isHeld ? pouredBetween(run, before, fromDay) : pouredAt(run, start),
    quarterDays: isHeld ? null : since(usedUp(0.75)),
    emptyDays: isHeld ? null : since(usedUp(1 - 1e-9)),
    sufferDays: since(suffers),
    sufferCause: suffers === null ? null : hardGroundCause(plan, run, frameNear(run, suffers)),
    metBefore: fromDay > 0 ? metShare(run, before, fromDay) : metShare(run, 0, 1),
  };
}

/** Share of what plants want, 0 to 1, that they got between two days; 1 where they want nothing. */
export function metShare(run: Run, fromDay: number, toDay: number): number {
  const between = (values: number[]) => onDay(run, values, toDay) - onDay(run, values, fromDay);
  const wanted = between(run.history.wantedLitres);
  return wanted > 0 ? between(run.history.uptakeLitres) / wanted : 1;
}

/** Share of what plants want, 0 to 1, that they get in the last whole cycle of refills every `every` days. */
export function metByInterval(run: Run, every: number): number {
  const { from, to } = lastCycle(every);
  return metShare(run, from, to);
}

/** Poured in by the refill that begins the last whole cycle, litres. */
export function litresByInterval(run: Run, every: number): number {
  return pouredAt(run, run.history.day.lastIndexOf(lastCycle(every).from));
}

function lastCycle(every: number): { from: number; to: number } {
  const lastRefill = Math.floor((LAST_DAY - 1e-9) / every) * every;
  const to = lastRefill + every <= LAST_DAY + 1e-9 ? lastRefill + every : lastRefill;
  return { from: to - every, to };
}

/** First day from `fromDay` on at which plants get less than `ENOUGH` of what they want. */
function sufferDay({ history }: Run, fromDay: number): number | null {
  const { day, uptakeLitres, wantedLitres } = history;
  const k = day.findIndex((to, i) => {
    const gained = (litres: readonly number[]) => entry(litres, i) - (litres[i - 1] ?? 0);
    const [wanted, got] = [gained(wantedLitres), gained(uptakeLitres)];
    return to > fromDay && wanted > 0 && got < ENOUGH * wanted;
  });
  return k < 0 ? null : Math.max(entry(day, k - 1), fromDay);
}

const frameNear = ({ frames }: Run, day: number) =>
  present(
    least(frames, (frame) => Math.abs(frame.day - day)),
    "kept field",
  );

function pouredBetween(run: Run, from: number, to: number): number {
  const { pouredLitres } = run.history;
  return (onDay(run, pouredLitres, to) - onDay(run, pouredLitres, from)) / Math.max(to - from, 1e-9);
}

/** Poured by the refill whose row is `k`: the first row of that day is the one before it. */
function pouredAt({ history }: Run, k: number): number {
  const { day, pouredLitres } = history;
  const before = day.indexOf(entry(day, k));
  return entry(pouredLitres, k) - (before < k ? entry(pouredLitres, before) : 0);
}

/** Carrying the water of one filling by hand. */
export interface CarryingWork {
  trips: number;
  hoseMinutes: number;
}

/** Trips with the can, and minutes with the hose, for so many litres. */
export function carryingFor({ carrying }: PlanPart<"carrying">, litres: number): CarryingWork {
  return {
    trips: Math.max(0, Math.ceil(litres / carrying.canLitres - 1e-9)),
    hoseMinutes: litres / carrying.hoseLitresPerMinute,
  };
}
