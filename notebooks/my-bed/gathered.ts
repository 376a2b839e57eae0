/** All that the season page tells, gathered from what the other notebooks work out. */
import { range } from "d3-array";
import {
  buildPot,
  CM3_PER_LITRE,
  DAYS_OF_YEAR,
  ENOUGH,
  MONTHS,
  type Month,
  monthOfDay,
  type Plan,
  REFILL,
  releaseAt,
  seasonOf,
} from "../../model/index.ts";
import { type FilledLine, filledLine, MOST_LINED_POTS } from "../does-the-line-fill-every-pot/filledLine.ts";
import type { SuppliedBed } from "../lib/seasonCells.ts";
import type { LaidOut } from "../where-does-each-pot-go/laidOut.ts";
import { type Outlook, outlookOf } from "../will-the-tank-last/outlook.ts";

export interface Gathered {
  plan: Plan;
  bed: LaidOut;
  supplied: SuppliedBed;
  outlook: Outlook;
  /** From empty pots; null where there are more than one line is worked out for. */
  line: FilledLine | null;
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
  /** The valve stays open so long; null where a pot is never full. */
  valveMinutes: number | null;
  met: number;
  /** Share of years with days on which pots go short. */
  shortShare: number;
}

/** Nine of ten years: our own choice. */
export const WANTED_SHARE = 0.9;

/** `line`: the text of the plan's line (`lineText`). */
export function gather(plan: Plan, bed: LaidOut, supplied: SuppliedBed, line: string, isRecorded: boolean): Gathered {
  const outlook = outlookOf(supplied, { isRecorded, wantedShare: WANTED_SHARE });
  const isLined = bed.pots.length <= MOST_LINED_POTS;
  const months = monthsOf(supplied, outlook, isLined ? line : null);
  const hardest = months.reduce((worst, each) => (each.met < worst.met ? each : worst));
  return { plan, bed, supplied, outlook, line: isLined ? filledLine(line) : null, months, hardest };
}

export const carriesCrop = ({ hardest }: Pick<Gathered, "hardest">): boolean => hardest.met >= ENOUGH;

function monthsOf({ plan, asked, release }: SuppliedBed, outlook: Outlook, line: string | null): MonthOfBed[] {
  const capacity = buildPot(plan.pot).capacity / CM3_PER_LITRE;
  const { age, drawnLitres, refill } = asked.days;
  const days = range(DAYS_OF_YEAR, age.length);
  const years = age.length / DAYS_OF_YEAR - 1;
  return seasonOf(plan).months.map(({ month, age: middleAge }) => {
    const own = days.filter((t) => age[t]! >= 0 && monthOfDay((t % DAYS_OF_YEAR) + 1) === month);
    const refills = own.filter((t) => refill[t] === REFILL.filled || refill[t] === REFILL.held).length / years;
    const drawn = own.reduce((sum, t) => sum + drawnLitres[t]!, 0) / years;
    const litres = refills > 0 ? Math.min(drawn / refills, capacity) : 0;
    return {
      month,
      refills,
      litres,
      valveMinutes: line && litres > 0 ? filledLine(line, { litresEach: litres }).filling.valveMinutes : null,
      met: releaseAt(release, middleAge).met,
      shortShare: outlook.shortMonths[MONTHS.indexOf(month)] ?? 0,
    };
  });
}
