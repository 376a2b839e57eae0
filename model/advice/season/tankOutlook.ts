/** What roof and tank come to, read from years of days. */

import { range, sum } from "d3-array";
import { byMonth, MONTHS, type Month } from "../../calendar/months.ts";
import { DAYS_OF_YEAR, monthIndexOf } from "../../calendar/yearDays.ts";
import type { PlanPart } from "../../plan/planPart.ts";
import { usableShare } from "../../plan/planSupply.ts";
import type { BedWithSupply } from "./bedWithSupply.ts";
import { type Season, seasonOf } from "./season.ts";
import { carriedShare } from "./seasonSupply.ts";
import { leastRoof, leastTank } from "./supplySize.ts";

export interface Outlook {
  plan: BedWithSupply["plan"];
  season: Season;
  pots: number;
  isRecorded: boolean;
  yearCount: number;
  /** Share of years in which the pots never go short of the tank's water. */
  carried: number;
  /** Litres a year: asked of the tank, got from it, and, once it has had a year to fill, what pots could not give for want of it. */
  asked: number;
  supplied: number;
  short: number;
  shortDays: number;
  /** Share of years with days on which pots go short; null outside the season. */
  shortMonths: Record<Month, number | null>;
  /** The month in which most of the years that go short do so first, 0 to 11; null where none does. */
  firstShortMonth: number | null;
  /** Brought by the roof, and lost over the brim, litres a year. */
  inflow: number;
  spilled: number;
  topUp: number;
  evaporated: number;
}

/** What would carry a wanted share of years: a tank (litres) under the plan's roof, else a roof (cm²) over its tank; null: none does. */
export interface Needs {
  of: BedWithSupply;
  share: number;
  tank: number | null;
  roof: number | null;
}

/** What all tanks hold, as far as it can run to the pots, litres. */
export const usableOf = (plan: PlanPart<"tank" | "spareTanks" | "line">): number =>
  capacityOf(plan) - (1 - usableShare(plan)) * plan.tank.litres;

/** What all tanks hold, litres. */
export const capacityOf = ({ tank, spareTanks }: PlanPart<"tank" | "spareTanks">): number =>
  tank.litres + (spareTanks ? spareTanks.count * spareTanks.litres : 0);

/** The least tank or roof that carries a share of years, 0 to 1. Takes a while: yields between its two searches. */
export function* needsOf(bed: BedWithSupply, share: number): Generator<void, Needs> {
  const { plan, asked, supply } = bed;
  const tank = leastTank(plan, asked, share);
  yield;
  const isEnough = tank !== null || carriedShare(supply) >= share;
  return { of: bed, share, tank, roof: isEnough ? null : leastRoof(plan, asked, share) };
}

/** Sums up the years of a bed with its supply, in litres and days a year and in shares from 0 to 1. */
export function outlookOf(bed: BedWithSupply, isRecorded: boolean): Outlook {
  const { plan, asked, supply, years } = bed;
  const { totals, stored } = supply;
  const perYear = (litres: number) => litres / (stored.length / DAYS_OF_YEAR);
  const carried = carriedShare(supply);
  return {
    ...{ plan, isRecorded, carried, season: seasonOf(plan), pots: asked.pots, yearCount: years.length },
    asked: perYear(sum(supply.asked)),
    supplied: perYear(totals.supplied),
    short: sum(years, (year) => year.short) / years.length,
    shortDays: sum(years, (year) => year.shortDays) / years.length,
    ...shortMonths(bed),
    inflow: perYear(totals.inflow),
    spilled: perYear(totals.spilled),
    topUp: perYear(totals.topUp),
    evaporated: perYear(totals.evaporated),
  };
}

function shortMonths({ plan, years }: BedWithSupply): Pick<Outlook, "shortMonths" | "firstShortMonth"> {
  const grown = new Set(seasonOf(plan).months.map(({ month }) => month));
  const shareIn = (k: number) => years.filter(({ shortMonths }) => shortMonths.has(k)).length / years.length;
  const shares = byMonth((month) => (grown.has(month) ? shareIn(MONTHS.indexOf(month)) : null));
  const firsts = years.flatMap((year) => firstShortMonth(plan, year.shortMonths));
  const counts = range(12).map((month) => sum(firsts, (first) => (first === month ? 1 : 0)));
  const most = Math.max(...counts);
  return { shortMonths: shares, firstShortMonth: most > 0 ? counts.indexOf(most) : null };
}

/** From planting on. */
function firstShortMonth({ plantingDay }: PlanPart<"plantingDay">, months: ReadonlySet<number>): number[] {
  const planted = monthIndexOf(plantingDay);
  return range(12)
    .map((k) => (planted + k) % 12)
    .filter((month) => months.has(month))
    .slice(0, 1);
}
