/** The numbers behind the pictures, and what a refill takes. */

import { range } from "d3-array";
import {
  type Alternative,
  alternatives,
  carryingFor,
  type IntervalRange,
  type IntervalShare,
  litresByInterval,
  ownShare,
  runOfInterval,
  seriesOn,
  watchedOutcome,
} from "../../../model/public/advice.ts";
import { potLitres, type Run } from "../../../model/public/flow.ts";
import { first, last, type Plan, present } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import type { FillingCourse } from "./course.ts";
import { changeNames, everyDays, fillingWords, percent, wholePercent } from "./refillWords.ts";

const WEEK = 7;

export function courseTable({ left, met, since }: FillingCourse, units: UnitSystem): Table {
  const levels = { day: left.map((each) => each.day), value: left.map(({ litres }) => litres) };
  return tableOf("one-filling", "The same day by day", range(15), [
    [since, (day) => day, 0],
    [`water left (${unitOf("volume", units)})`, (day) => fromModel(seriesOn(levels, day), "volume", units), 1],
    [
      "thirst met from then on (%)",
      (day) => 100 * (met.findLast((each) => each.day <= day + 1e-9) ?? first(met)).share,
      0,
    ],
  ]);
}

/** What a refill and a week of them come to. */
interface Amount {
  name: string;
  litres: number;
  /** null where the pot is filled once. */
  perWeek: number | null;
  isByHand: boolean;
}

/** By the plan, and by the interval advised. */
function amountsOf(plan: Plan, run: Run, advised: { days: number; run: Run } | null): Amount[] {
  const { filling } = plan;
  const { litres } = watchedOutcome(plan, run);
  const every = { float: 1, once: null, every: filling.kind === "every" ? filling.days : null }[filling.kind];
  const isAsAdvised = advised === null || (filling.kind === "every" && filling.days === advised.days);
  const own = {
    name: `${fillingWords(plan)}${filling.kind === "float" ? ", each day" : ""}`,
    litres,
    perWeek: every === null ? null : (litres * WEEK) / every,
    isByHand: filling.kind !== "float",
  };
  return [own, ...(isAsAdvised ? [] : [advisedAmount(advised)])];
}

function advisedAmount({ days, run }: { days: number; run: Run }): Amount {
  const litres = litresByInterval(run, days);
  return {
    name: `filled ${everyDays(days)}, in the long run`,
    litres,
    perWeek: (litres * WEEK) / days,
    isByHand: true,
  };
}

export function amountsTable(
  plan: Plan,
  run: Run,
  advised: { days: number; run: Run } | null,
  units: UnitSystem,
): Table {
  const { canLitres, hoseLitresPerMinute } = plan.carrying;
  const unit = unitOf("volume", units);
  const volume = (value: number | null) => (value === null ? "–" : fromModel(value, "volume", units));
  const caption = `What one pot takes, with a hose of ${formatBoth(hoseLitresPerMinute, "hose flow", units)} or a can of ${formatBoth(canLitres, "volume", units)}; a bed has several pots`;
  return tableOf("amounts", caption, amountsOf(plan, run, advised), [
    ["how", ({ name }) => name],
    [`a refill (${unit})`, ({ litres }) => volume(litres), 1],
    [`a week (${unit})`, ({ perWeek }) => volume(perWeek), 1],
    [
      "minutes with the hose, a refill",
      (each) => (each.isByHand ? carryingFor(plan, each.litres).hoseMinutes : "–"),
      1,
    ],
    ["trips with the can, a refill", (each) => (each.isByHand ? carryingFor(plan, each.litres).trips : "–"), 0],
    ["cans a week", ({ isByHand, perWeek }) => (isByHand && perWeek !== null ? perWeek / canLitres : "–"), 1],
  ]);
}

export function intervalTable(
  plan: Pick<Plan, "carrying">,
  tried: IntervalShare[],
  runs: Readonly<Record<string, Run>>,
  units: UnitSystem,
): Table {
  const volume = unitOf("volume", units);
  const intervals = tried.map(({ days, share }) => {
    const litres = litresByInterval(runOfInterval(runs, days), days);
    return { days, share, litres, perWeek: (litres * WEEK) / days };
  });
  return tableOf("intervals", "Days between refills, each in the long run from a dry bed", intervals, [
    ["days between refills", ({ days }) => days, 0],
    ["thirst met (%)", ({ share }) => wholePercent(share), 0],
    [`a refill (${volume})`, ({ litres }) => fromModel(litres, "volume", units), 1],
    [`a week (${volume})`, ({ perWeek }) => fromModel(perWeek, "volume", units), 1],
    ["minutes with the hose a week", ({ perWeek }) => carryingFor(plan, perWeek).hoseMinutes, 1],
  ]);
}

export function changesTable(plan: Plan, runs: Readonly<Record<string, Run>>, units: UnitSystem): Table {
  const isFloat = plan.filling.kind === "float";
  const caption = `The same bed with one thing changed, ${fillingWords(plan)}; days count from ${plan.filling.kind === "once" ? "the filling" : "a refill"}`;
  const beds = [
    changedBed("as it is", plan, present(runs.own, "run of the bed as it is")),
    ...alternatives(plan).map((each) =>
      changedBed(changeWords(each, units), each.plan, present(runs[each.name], each.name)),
    ),
  ];
  return tableOf("changes", caption, beds, [
    ["bed", ({ name }) => name],
    [
      `${isFloat ? "each pot a day" : "each pot’s refill"} (${unitOf("volume", units)})`,
      ({ litres }) => fromModel(litres, "volume", units),
      1,
    ],
    ["at a quarter (day)", ({ quarterDays, never }) => quarterDays ?? (isFloat ? "held full" : never), 1],
    ["empty (day)", ({ emptyDays, never }) => emptyDays ?? (isFloat ? "held full" : never), 1],
    ["plants suffer (day)", ({ suffer, never }) => suffer ?? never, 1],
    ["thirst met", ({ met }) => percent(met)],
  ]);
}

function changedBed(name: string, plan: Plan, run: Run) {
  const outcome = watchedOutcome(plan, run);
  const { sufferDays, sufferCause, fromDay } = outcome;
  const never = `not in ${(last(run.history.day) - fromDay).toFixed(0)}`;
  const suffer = sufferDays === null ? null : `${sufferDays.toFixed(1)}, too ${sufferCause}`;
  return { ...outcome, name, never, suffer, met: ownShare(plan, run, outcome) };
}

function changeWords({ name, plan }: Alternative, units: UnitSystem): string {
  if (name !== "bigger pot") return changeNames[name];
  return `${changeNames[name]}: ${formatBoth(potLitres(plan.pot), "volume", units)}`;
}

/** What stands in no row of the table, and why. */
export function leftOutWords(plan: Plan): string[] {
  const offered = alternatives(plan).map(({ name }) => name);
  const without = (Object.keys(changeNames) as Alternative["name"][]).filter((name) => !offered.includes(name));
  const done = { "full mulch": "all of the ground is under mulch already", lid: "the pot has its lid already" };
  const whys = without.map((name) =>
    name in done ? done[name as keyof typeof done] : `${changeNames[name]} would not leave room in its ground`,
  );
  return whys.length > 0 ? [`Not in the table: ${whys.join("; ")}.`] : [];
}

/** The longest interval that carries the crop, with its run. */
export const advisedOf = (carrying: IntervalRange | null, runs: Readonly<Record<string, Run>>) =>
  carrying && { days: carrying.longest, run: runOfInterval(runs, carrying.longest) };
