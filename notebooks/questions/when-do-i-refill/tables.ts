/** The numbers behind the pictures, and what a refill takes. */

import {
  type Alternative,
  alternatives,
  carryingFor,
  type IntervalRange,
  type IntervalShare,
  intervalName,
  litresByInterval,
  ownShare,
  watchedOutcome,
} from "../../../model/public/advice.ts";
import { potLitres, type Run } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import type { FillingCourse } from "./course.ts";
import { changeNames, everyDays, fillingWords, percent, wholePercent } from "./refillWords.ts";

const WEEK = 7;

export function courseTable({ left, met, since }: FillingCourse, units: UnitSystem): Table {
  const days = Array.from({ length: 15 }, (_, day) => day);
  const volume = (litres: number) => fromModel(litres, "volume", units);
  return {
    kind: "table",
    name: "one-filling",
    caption: "The same day by day",
    columns: [
      { heading: since, digits: 0 },
      { heading: `water left (${unitOf("volume", units)})`, digits: 1 },
      { heading: "thirst met from then on (%)", digits: 0 },
    ],
    rows: days.map((day) => [
      day,
      volume(
        interpolated(
          left.map((each) => [each.day, each.litres]),
          day,
        ),
      ),
      100 * met.findLast((each) => each.day <= day + 1e-9)!.share,
    ]),
  };
}

/** Straight between two points, which go up in x. */
function interpolated(points: (readonly [number, number])[], x: number): number {
  const k = Math.max(
    points.findIndex((point) => point[0] >= x - 1e-9),
    1,
  );
  const [from, to] = [points[k - 1]!, points[k]!];
  return from[1] + ((to[1] - from[1]) * (x - from[0])) / (to[0] - from[0]);
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
  const volume = unitOf("volume", units);
  return {
    kind: "table",
    name: "amounts",
    caption: `What one pot takes, with a hose of ${formatBoth(hoseLitresPerMinute, "hose flow", units)} or a can of ${formatBoth(canLitres, "volume", units)}; a bed has several pots`,
    columns: [
      { heading: "how" },
      { heading: `a refill (${volume})`, digits: 1 },
      { heading: `a week (${volume})`, digits: 1 },
      { heading: "minutes with the hose, a refill", digits: 1 },
      { heading: "trips with the can, a refill", digits: 0 },
      { heading: "cans a week", digits: 1 },
    ],
    rows: amountsOf(plan, run, advised).map((amount) => amountCells(plan, amount, units)),
  };
}

function amountCells(plan: Plan, { name, litres, perWeek, isByHand }: Amount, units: UnitSystem) {
  const volume = (value: number) => fromModel(value, "volume", units);
  const { trips, hoseMinutes } = carryingFor(plan, litres);
  return [
    name,
    volume(litres),
    perWeek === null ? "–" : volume(perWeek),
    ...(isByHand ? [hoseMinutes, trips] : ["–", "–"]),
    isByHand && perWeek !== null ? perWeek / plan.carrying.canLitres : "–",
  ];
}

export function intervalTable(
  plan: Pick<Plan, "carrying">,
  tried: IntervalShare[],
  runs: Readonly<Record<string, Run>>,
  units: UnitSystem,
): Table {
  const volume = unitOf("volume", units);
  return {
    kind: "table",
    name: "intervals",
    caption: "Days between refills, each in the long run from a dry bed",
    columns: [
      { heading: "days between refills", digits: 0 },
      { heading: "thirst met (%)", digits: 0 },
      { heading: `a refill (${volume})`, digits: 1 },
      { heading: `a week (${volume})`, digits: 1 },
      { heading: "minutes with the hose a week", digits: 1 },
    ],
    rows: tried.map(({ days, share }) => {
      const litres = litresByInterval(runs[intervalName(days)]!, days);
      const perWeek = (litres * WEEK) / days;
      return [
        days,
        wholePercent(share),
        fromModel(litres, "volume", units),
        fromModel(perWeek, "volume", units),
        carryingFor(plan, perWeek).hoseMinutes,
      ];
    }),
  };
}

export function changesTable(plan: Plan, runs: Readonly<Record<string, Run>>, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const isFloat = plan.filling.kind === "float";
  return {
    kind: "table",
    name: "changes",
    caption: `The same bed with one thing changed, ${fillingWords(plan)}; days count from ${plan.filling.kind === "once" ? "the filling" : "a refill"}`,
    columns: [
      { heading: "bed" },
      { heading: `${isFloat ? "each pot a day" : "each pot’s refill"} (${volume})`, digits: 1 },
      { heading: "at a quarter (day)", digits: 1 },
      { heading: "empty (day)", digits: 1 },
      { heading: "plants suffer (day)", digits: 1 },
      { heading: "thirst met" },
    ],
    rows: [
      changeCells("as it is", plan, runs.own!, units),
      ...alternatives(plan).map((each) => changeCells(changeWords(each, units), each.plan, runs[each.name]!, units)),
    ],
  };
}

function changeCells(name: string, plan: Plan, run: Run, units: UnitSystem): (string | number)[] {
  const outcome = watchedOutcome(plan, run);
  const { litres, quarterDays, emptyDays, sufferDays, sufferCause } = outcome;
  const watched = run.history.day.at(-1)! - outcome.fromDay;
  const never = `not in ${watched.toFixed(0)}`;
  return [
    name,
    fromModel(litres, "volume", units),
    quarterDays ?? (plan.filling.kind === "float" ? "held full" : never),
    emptyDays ?? (plan.filling.kind === "float" ? "held full" : never),
    sufferDays === null ? never : `${sufferDays.toFixed(1)}, too ${sufferCause}`,
    percent(ownShare(plan, run, outcome)),
  ];
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
  carrying && { days: carrying.longest, run: runs[intervalName(carrying.longest)]! };
