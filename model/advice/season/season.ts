/** A crop's season in a plan's bed: which months it covers, and what a pot gives in each by the flow of water. */

import { range } from "d3-array";
import type { Month } from "../../calendar/months.ts";
import { DAYS_OF_YEAR, laterDay, monthOfDay } from "../../calendar/yearDays.ts";
import type { Problem } from "../../flow/problem.ts";
import { entry } from "../../input/lists.ts";
import type { Plan } from "../../plan/plan.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { START_MOISTURE } from "../../plan/typed/startMoisture.ts";
import { seasonDays } from "../../plants/growthStages.ts";
import { livingProblem } from "../../problems/livingProblem.ts";
import { headOfSuction } from "../../units/units.ts";

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

/** The season from planting to harvest, at most a year: its months, with the plants' age in days. */
export function seasonOf({ plantingDay, crop }: Pick<Plan, "plantingDay" | "crop">): Season {
  const days = Math.min(Math.round(seasonDays(crop.stageDays)), DAYS_OF_YEAR);
  const ages = new Map<Month, number[]>();
  for (const age of range(days)) {
    const month = monthOfDay(laterDay(plantingDay, age));
    ages.set(month, [...(ages.get(month) ?? []), age]);
  }
  const months = [...ages].map(([month, own]) => ({ month, age: middleOf(own) }));
  return { plantingDay, days, months: months.sort((a, b) => a.age - b.age) };
}

const middleOf = <T>(list: readonly T[]): T => entry(list, Math.floor(list.length / 2));

/**
 * Days of each run, and from when on its release counts: the ground about the pot has been wetted by then. A week more takes
 * the release down by 0 to 2 % in sand, loam and clay, by up to 4 % in silt loam where nothing is thirsty.
 */
export const RUN_DAYS = 21;
export const COUNTED_FROM = 9;
const COUNTED_MIDDLE = (COUNTED_FROM + RUN_DAYS) / 2;

export const NO_THIRST = "no thirst";

/** Runs are asked for in so many months at most, evenly over the season, first and last included: our own choice. */
const MOST_MONTHS = 4;

export function runMonths(plan: PottedGround): SeasonMonth[] {
  const { months } = seasonOf(plan);
  if (months.length <= MOST_MONTHS) return months;
  return range(MOST_MONTHS).map((k) => entry(months, Math.round((k * (months.length - 1)) / (MOST_MONTHS - 1))));
}

/**
 * One run for each of some months of the season, at its mean demand and with plants of that age in the days that count, and
 * one without any thirst: in ground that begins dry, without rain, so that all water comes from the pot.
 */
export function seasonProblems(plan: PottedGround): Record<string, Problem> {
  const months = runMonths(plan);
  const problem = (month: Month, grown: number, ETo?: number) =>
    livingProblem(rainless(plan, month), {
      ...{ stage: Math.max(grown - COUNTED_MIDDLE, 0), days: range(1, RUN_DAYS + 1) },
      startHead: Math.min(plan.startHead, headOfSuction(START_MOISTURE.dry)),
      ...(ETo !== undefined && { ETo }),
    });
  const middle = middleOf(months);
  return {
    [NO_THIRST]: problem(middle.month, middle.age, 0),
    ...Object.fromEntries(months.map(({ month, age }) => [month, problem(month, age)])),
  };
}

function rainless(plan: PottedGround, month: Month): PottedGround {
  const { weather } = plan;
  const months = { ...weather.months, [month]: { ...weather.months[month], rainMm: 0, rainDays: 0 } };
  return { ...plan, month, weather: { ...weather, months }, handWatering: null };
}
