/** The bed of a plan with all that stands in it. */

import { densestCount, layOutPots } from "../../bed/layout.ts";
import type { Place } from "../../bed/outline.ts";
import { type PlaceTrouble, placeTroubles } from "../../bed/placeTroubles.ts";
import { plantPlaces } from "../../bed/planting.ts";
import { farthestGround } from "../../bed/potGrid.ts";
import { type Pegs, pegsOf } from "../../bed/strings.ts";
import { wettedShare } from "../../bed/wetted.ts";
import type { Run } from "../../flow/run.ts";
import { entry } from "../../input/lists.ts";
import type { Plan } from "../../plan/plan.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { wallRadiusAt } from "../../pot/potOutline.ts";
import { edgeIndex } from "../../problems/bareProblem.ts";
import { bedParts } from "./bedParts.ts";
import { isAtSide, onDay } from "./history.ts";
import type { SowingAdvice } from "./sowing.ts";
import { readingDay } from "./spacing.ts";

export interface BedLayout {
  plan: Plan;
  pots: Place[];
  isByHand: boolean;
  troubles: PlaceTrouble[];
  /** How far easy water reaches from a pot's middle, cm, just before a refill. */
  wetRadius: number;
  wetShare: number;
  /** Where plants stand in the sowing band; none where there is no band. */
  plants: Place[];
  band: { inner: number; outer: number } | null;
  pegs: Pegs;
  parts: ReturnType<typeof bedParts>;
  /** More than the grid gives, on no grid at all, would not fit. */
  most: number;
}

/**
 * Where pots, plants and pegs stand, cm. `wetRadius`, cm, comes from the run of the living bed, `sowing` from that of
 * bare ground in which seeds come up.
 */
export function bedLayout(plan: Plan, wetRadius: number, sowing: SowingAdvice): BedLayout {
  const { outline, spacing, edgeDistance, potPlaces, plantSpacing } = plan.bed;
  const pots = potPlaces ?? layOutPots(outline, plan.bed);
  const potRadius = wallRadiusAt(plan.pot, 0);
  const band = bandOf(sowing, spacing / 2 - potRadius);
  return {
    plan,
    pots,
    isByHand: potPlaces !== null,
    troubles: placeTroubles(outline, pots, { spacing, edgeDistance }),
    wetRadius,
    wetShare: wettedShare(outline, pots, wetRadius),
    plants: band ? plantPlaces(outline, pots, { ...band, plantSpacing, potRadius }) : [],
    band,
    pegs: pegsOf(outline, pots),
    parts: bedParts(plan, pots.length),
    most: densestCount(outline, spacing, edgeDistance),
  };
}

/** Distances from the wall; where moist soil has no end, as far as half-way to the next pot. */
function bandOf(sowing: SowingAdvice, halfWay: number): BedLayout["band"] {
  if (sowing.kind === "nowhere") return null;
  const { inner, outer } =
    sowing.kind === "band" ? sowing.band : { inner: sowing.innerLimit, outer: Math.max(halfWay, sowing.innerLimit) };
  return { inner, outer };
}

/**
 * How far easy water reaches from a pot's middle on the day of the reading, at the depth of most roots, cm: where the closed
 * ground of a pot is moist to its side, to its farthest corner.
 */
export function wetRadiusOf(plan: PottedGround, run: Run): number {
  const { radius } = entry(run.history.edges, edgeIndex(plan, "easyWater"));
  const reach = onDay(run, radius, readingDay(plan));
  return isAtSide(run, reach) ? farthestGround(plan.bed.grid, plan.bed.spacing) : reach;
}
