import type { Plan } from "../../plan/plan.ts";
import { potLitres } from "../../pot/buildPot.ts";
import { stopperFor } from "../../pot/stopper.ts";

/** What a bed takes. */
export interface BedParts {
  pots: number;
  lids: number;
  /** Of one size, with the hole they close, cm; null where the pots have no drain hole. */
  stoppers: { hole: number; smallEnd: number; largeEnd: number; count: number } | null;
  /** Of one empty pot, filled to the brim. */
  litresPerFill: number;
  /** Of all of them. */
  litresInAll: number;
}

/** For a number of the plan's pots. */
export function bedParts(plan: Pick<Plan, "pot" | "drainHoleDiameter" | "lid">, pots: number): BedParts {
  const { pot, drainHoleDiameter: hole, lid } = plan;
  const litresPerFill = potLitres(pot);
  return {
    pots,
    lids: lid ? pots : 0,
    stoppers: hole > 0 ? { hole, ...stopperFor(hole), count: pots } : null,
    litresPerFill,
    litresInAll: pots * litresPerFill,
  };
}
