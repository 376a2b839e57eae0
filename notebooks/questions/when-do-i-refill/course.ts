/** What the main picture is drawn from. */

import { watchedOutcome } from "../../../model/public/advice.ts";
import { buildPot, type Run } from "../../../model/public/flow.ts";
import { entry, type Plan, pairAt } from "../../../model/public/plan.ts";
import { CM3_PER_LITRE } from "../../../model/public/units.ts";

/** One filling, in days since it; water in litres, the share met from each day on until the next. */
export interface FillingCourse {
  /** Label of the time axis. */
  since: string;
  capacity: number;
  left: { day: number; litres: number }[];
  met: { day: number; share: number }[];
  quarterDays: number | null;
  emptyDays: number | null;
  sufferDays: number | null;
  sufferCause: "dry" | "wet" | null;
  /** When the plan would refill. */
  nextRefill: number | null;
  /** A float keeps the pot full. */
  isHeld: boolean;
}

export function courseOf(plan: Plan, run: Run): FillingCourse {
  const outcome = watchedOutcome(plan, run);
  const { quarterDays, emptyDays, sufferDays, sufferCause, fromDay } = outcome;
  const pot = buildPot(plan.pot);
  const { day, waterLevelDepth, uptakeLitres, wantedLitres } = run.history;
  const start = day.lastIndexOf(fromDay);
  const rows = Array.from({ length: day.length - start }, (_, i) => start + i);
  const since = (k: number) => entry(day, k) - fromDay;
  const share = (k: number) => shareBetween(uptakeLitres, wantedLitres, k);
  return {
    since: sinceWords[plan.filling.kind],
    capacity: pot.capacity / CM3_PER_LITRE,
    left: rows.map((k) => ({ day: since(k), litres: pot.volumeAt(entry(waterLevelDepth, k)) / CM3_PER_LITRE })),
    // A step's share holds from its start; the last one is repeated at its end.
    met: rows.map((k) => ({ day: since(k), share: share(Math.min(k + 1, day.length - 1)) })),
    quarterDays,
    emptyDays,
    sufferDays,
    sufferCause,
    nextRefill: plan.filling.kind === "every" ? plan.filling.days : null,
    isHeld: plan.filling.kind === "float",
  };
}

const sinceWords = {
  every: "days since the refill",
  once: "days since the filling",
  float: "days, from the third week on",
} as const;

/** Between a row of the history and the one before; 1 where plants want nothing. */
function shareBetween(got: number[], wanted: number[], k: number): number {
  const gain = (litres: number[]) => {
    const [before, then] = pairAt(litres, k);
    return then - before;
  };
  const want = gain(wanted);
  return want > 0 ? gain(got) / want : 1;
}
