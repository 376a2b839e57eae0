/** All that the season page tells, gathered from what the other notebooks work out. */

import type { Month } from "../calendar/months.ts";
import { middleDay } from "../calendar/yearDays.ts";
import { entry } from "../input/lists.ts";
import type { Plan } from "../plan/plan.ts";
import { usableShare } from "../plan/planSupply.ts";
import { potLitres } from "../pot/buildPot.ts";
import { type FilledLine, filledLine, MOST_LINED_POTS } from "./line/filledLine.ts";
import type { BedLayout } from "./pot/bedLayout.ts";
import { ENOUGH } from "./pot/refill.ts";
import type { BedWithSupply } from "./season/bedWithSupply.ts";
import { monthSums } from "./season/monthSums.ts";
import { releaseAt } from "./season/release.ts";
import { seasonOf } from "./season/season.ts";
import { fullness } from "./season/tankFullness.ts";
import { type Needs, needsOf, type Outlook, outlookOf, usableOf } from "./season/tankOutlook.ts";

export interface WholeBed {
  plan: Plan;
  bed: BedLayout;
  supplied: BedWithSupply;
  outlook: Outlook;
  months: MonthOfBed[];
  /** The month of the season in which plants get the least of what they want, and how much of it. */
  hardest: { month: Month; met: number };
}

/** A month of the season, in a mean year. */
export interface MonthOfBed {
  month: Month;
  refills: number;
  /** Of one pot at one refill, no more than it holds. */
  litres: number;
  met: number;
  /** Share of years with days on which pots go short. */
  shortShare: number;
}

/** Nine of ten years: our own choice. */
export const WANTED_SHARE = 0.9;

/** Gathers bed, supply and outlook, and sums up the season month by month; litres. */
export function wholeBed(plan: Plan, bed: BedLayout, supplied: BedWithSupply, isRecorded: boolean): WholeBed {
  const outlook = outlookOf(supplied, isRecorded);
  const months = monthsOf(supplied, outlook);
  const hardest = months.reduce((worst, each) => (each.met < worst.met ? each : worst));
  return { plan, bed, supplied, outlook, months, hardest };
}

/** Whether plants get `ENOUGH` of the water they want in the hardest month. */
export const carriesCrop = ({ hardest }: Pick<WholeBed, "hardest">): boolean => hardest.met >= ENOUGH;

function monthsOf({ plan, asked, release }: BedWithSupply, outlook: Outlook): MonthOfBed[] {
  const capacity = potLitres(plan.pot);
  const sums = monthSums(asked);
  return seasonOf(plan).months.map(({ month, age }) => {
    const { refills, drawn } = sums[month];
    return {
      month,
      refills,
      litres: refills > 0 ? Math.min(drawn / refills, capacity) : 0,
      met: releaseAt(release, age).met,
      shortShare: outlook.shortMonths[month] ?? 0,
    };
  });
}

/** What takes longer: how the line fills the pots, and what tank would do. */
export interface BedWater {
  of: WholeBed;
  needs: Needs;
  /** From empty pots; null where there are more than one line is worked out for. */
  line: FilledLine | null;
  /** By month: the valve stays open so long; null where a pot is never full, or there is no such line. */
  minutes: (number | null)[];
}

/** How full the tank that feeds the bed is when so much is left of all that can be used; spare tanks fill it up first. */
function shareOfTank(plan: Plan, usedShare: number): number {
  const usable = usableShare(plan) * plan.tank.litres;
  const unusable = plan.tank.litres - usable;
  const stored = Math.min(usedShare * usableOf(plan), usable);
  return stored > 0 ? (unusable + stored) / plan.tank.litres : 0;
}

/**
 * How the line fills the pots, month by month (minutes), and what tank would do (litres). Yields between two fillings.
 */
export function* bedWater(gathered: WholeBed): Generator<void, BedWater> {
  const { plan, bed, months, supplied } = gathered;
  const isLined = bed.pots.length <= MOST_LINED_POTS;
  const line = isLined ? filledLine(plan) : null;
  const minutes: (number | null)[] = [];
  const full = fullness(supplied.years, usableOf(plan));
  for (const { month, litres } of months) {
    yield;
    const tankShare = shareOfTank(plan, entry(full, middleDay(month) - 1).middle / 100);
    const filled = isLined && litres > 0 && tankShare > 0 ? filledLine(plan, { litresEach: litres, tankShare }) : null;
    minutes.push(filled?.filling.valveMinutes ?? null);
  }
  return { of: gathered, needs: yield* needsOf(supplied, WANTED_SHARE), line, minutes };
}
