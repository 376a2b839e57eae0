/** A crop's season in a plan's bed: which months it covers, and what a pot gives in each by the flow of water. */

import { bisectRight, range } from "d3-array";
import type { Month } from "../../calendar/months.ts";
import { DAYS_OF_YEAR, laterDay, monthOfDay } from "../../calendar/yearDays.ts";
import type { Problem } from "../../flow/problem.ts";
import type { Run } from "../../flow/run.ts";
import type { Plan } from "../../plan/plan.ts";
import { START_MOISTURE } from "../../plan/typed/startMoisture.ts";
import { seasonDays } from "../../plants/growthStages.ts";
import { demandOf } from "../../problems/demand.ts";
import { livingProblem } from "../../problems/livingProblem.ts";
import { layerLitres } from "../../units/factors.ts";
import { headOfSuction } from "../../units/units.ts";
import { onDay } from "../pot/history.ts";
import { metShare } from "../pot/refill.ts";

export interface Season {
  plantingDay: number;
  /** At most a year. */
  days: number;
  months: SeasonMonth[];
}

export interface SeasonMonth {
  month: Month;
  /** Of the plants on the middle one of the season's days in it. */
  age: number;
}

export function seasonOf({ plantingDay, crop }: Pick<Plan, "plantingDay" | "crop">): Season {
  const days = Math.min(Math.round(seasonDays(crop.stageDays)), DAYS_OF_YEAR);
  const ages = new Map<Month, number[]>();
  for (const age of range(days)) {
    const month = monthOfDay(laterDay(plantingDay, age));
    ages.set(month, [...(ages.get(month) ?? []), age]);
  }
  const months = [...ages].map(([month, own]) => ({ month, age: own[Math.floor(own.length / 2)]! }));
  return { plantingDay, days, months: months.sort((a, b) => a.age - b.age) };
}

/**
 * Days of each run, and from when on its release counts: the ground about the pot has been wetted by then. A week more takes
 * the release down by 0 to 2 % in sand, loam and clay, by up to 4 % in silt loam where nothing is thirsty.
 */
const RUN_DAYS = 21;
const COUNTED_FROM = 9;
const COUNTED_MIDDLE = (COUNTED_FROM + RUN_DAYS) / 2;

const NO_THIRST = "no thirst";

/** Runs are asked for in so many months at most, evenly over the season, first and last included: our own choice. */
const MOST_MONTHS = 4;

function runMonths(plan: Plan): SeasonMonth[] {
  const { months } = seasonOf(plan);
  if (months.length <= MOST_MONTHS) return months;
  return range(MOST_MONTHS).map((k) => months[Math.round((k * (months.length - 1)) / (MOST_MONTHS - 1))]!);
}

/**
 * One run for each of some months of the season, at its mean demand and with plants of that age in the days that count, and
 * one without any thirst: in ground that begins dry, without rain, so that all water comes from the pot.
 */
export function seasonProblems(plan: Plan): Record<string, Problem> {
  const months = runMonths(plan);
  const problem = (month: Month, grown: number, ETo?: number) =>
    livingProblem(rainless(plan, month), {
      ...{ stage: Math.max(grown - COUNTED_MIDDLE, 0), days: range(1, RUN_DAYS + 1) },
      startHead: Math.min(plan.startHead, headOfSuction(START_MOISTURE.dry)),
      ...(ETo !== undefined && { ETo }),
    });
  const middle = months[Math.floor(months.length / 2)]!;
  return {
    [NO_THIRST]: problem(middle.month, middle.age, 0),
    ...Object.fromEntries(months.map(({ month, age }) => [month, problem(month, age)])),
  };
}

function rainless(plan: Plan, month: Month): Plan {
  const { weather } = plan;
  const months = { ...weather.months, [month]: { ...weather.months[month], rainMm: 0, rainDays: 0 } };
  return { ...plan, month, weather: { ...weather, months }, handWatering: null };
}

/** What leaves a filled pot by the age of the plants about it: litres a day `base + perLitre × the litres that they lack`. */
export interface Release {
  /** Given to ground in which nothing is thirsty: what sinks away. */
  base: number;
  /** By increasing age. */
  knots: { month: Month; age: number; perLitre: number; met: number; wanted: number; given: number; taken: number }[];
}

/** From the runs of `seasonProblems`. */
export function releaseOf(plan: Plan, runs: Readonly<Record<string, Run>>): Release {
  const base = givenDaily(plan, runs[NO_THIRST]!);
  const knots = runMonths(plan).map(({ month, age }) => {
    const run = runs[month]!;
    const { from, to } = countedDays(plan);
    const daily = (values: number[]) => (onDay(run, values, to) - onDay(run, values, from)) / (to - from);
    const [given, wanted, taken] = [
      givenDaily(plan, run),
      daily(run.history.wantedLitres),
      daily(run.history.uptakeLitres),
    ];
    const perLitre = wanted > 0 ? Math.max(given - base, 0) / wanted : 0;
    return { month, age, perLitre, met: metShare(run, from, to), wanted, given, taken };
  });
  return { base, knots };
}

/** Through the wall, and into the air from a pot without a lid. */
function givenDaily(plan: Plan, run: Run): number {
  const { from, to } = countedDays(plan);
  const { seepageLitres, potLossLitres } = run.history;
  const left = (day: number) => onDay(run, seepageLitres, day) + onDay(run, potLossLitres, day);
  return (left(to) - left(from)) / (to - from);
}

/** Whole spans from one refill to the next, after the first days of a run; of a pot filled once all of it. */
function countedDays({ filling }: Plan): { from: number; to: number } {
  if (filling.kind === "float") return { from: COUNTED_FROM, to: RUN_DAYS };
  if (filling.kind === "once") return { from: 0, to: RUN_DAYS };
  const cycles = Math.floor(RUN_DAYS / filling.days + 1e-9);
  const first = Math.min(Math.ceil(COUNTED_FROM / filling.days - 1e-9), cycles - 1);
  return cycles === 0
    ? { from: 0, to: RUN_DAYS }
    : { from: Math.max(first, 0) * filling.days, to: cycles * filling.days };
}

/** On a day of the plants' life, by straight lines between the months. */
export function releaseAt({ base, knots }: Release, age: number): { base: number; perLitre: number; met: number } {
  const after = bisectRight(
    knots.map((knot) => knot.age),
    age,
  );
  const [from, to] = [knots[Math.max(after - 1, 0)]!, knots[Math.min(after, knots.length - 1)]!];
  const share = to.age > from.age ? Math.min(Math.max((age - from.age) / (to.age - from.age), 0), 1) : 0;
  const mix = (key: "perLitre" | "met") => from[key] + share * (to[key] - from[key]);
  return { base, perLitre: mix("perLitre"), met: mix("met") };
}

/** What plants of an age want of the ground of one pot under an ETo, litres a day. */
export function wantedLitres(plan: Plan, age: number, ETo: number): number {
  const { transpiration } = demandOf(plan, age, 0, ETo);
  return layerLitres(transpiration, plan.areaPerPot);
}
