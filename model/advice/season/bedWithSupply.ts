/** A plan's bed with what it asks for, and what its roof and tanks give it. */
import type { PottedGround } from "../../plan/planPart.ts";
import type { BedSupply } from "../../supply/bedSupply.ts";
import type { Release } from "./release.ts";
import { type BedDemand, type PotSupply, type SupplyYear, seasonSupply, supplyYears } from "./seasonSupply.ts";

export interface SeasonBed {
  plan: PottedGround;
  release: Release;
  asked: BedDemand;
}

export interface BedWithSupply extends SeasonBed {
  plan: PottedGround & PotSupply;
  supply: BedSupply;
  years: SupplyYear[];
}

/** The bed that is worked out, fed from roof and tanks as they are now. */
export function bedWithSupply(asking: SeasonBed, { roof, tank, spareTanks, topUp, line }: PotSupply): BedWithSupply {
  const plan = { ...asking.plan, roof, tank, spareTanks, topUp, line };
  const supply = seasonSupply(plan, asking.asked);
  return { ...asking, plan, supply, years: supplyYears(supply) };
}
