/** A plan's bed with what it asks for, and what its roof and tanks give it. */
import type { Plan } from "../../plan/plan.ts";
import type { BedSupply } from "../../supply/bedSupply.ts";
import type { Release } from "./release.ts";
import { type BedDemand, type SupplyYear, seasonSupply, supplyYears } from "./seasonSupply.ts";

export interface SeasonBed {
  plan: Plan;
  release: Release;
  asked: BedDemand;
}

export interface BedWithSupply extends SeasonBed {
  supply: BedSupply;
  years: SupplyYear[];
}

/** Its asking bed, fed from the plan's roof and tanks. */
export function bedWithSupply(plan: Plan, asking: SeasonBed): BedWithSupply {
  const supply = seasonSupply(plan, asking.asked);
  return { ...asking, plan, supply, years: supplyYears(supply) };
}

/** Roof and tanks as they are now, under the bed that is worked out. */
export const withSupply = (bed: Plan, { roof, tank, spareTanks, topUp }: Plan): Plan => ({
  ...bed,
  roof,
  tank,
  spareTanks,
  topUp,
});
