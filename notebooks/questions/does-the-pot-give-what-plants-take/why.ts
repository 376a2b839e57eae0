/** Why a pot's release hardly knows of the plants, in words. */

import {
  HARDLY,
  headFromWall,
  isStraight,
  releaseIntoStandingWater,
  riseWithDemand,
  TRIED_DEMANDS,
} from "../../../model/public/advice.ts";
import { buildPot, releaseIntoSuction } from "../../../model/public/flow.ts";
import { first, last } from "../../../model/public/plan.ts";
import { formatBoth, formatSuction, type UnitSystem } from "../../../model/public/units.ts";
import type { DemandLine, Demands } from "./demandFigure.ts";
import { type Bed, type BedPair, type Beds, plantsOf } from "./stages.ts";
import { moreWords, percent } from "./verdict.ts";

/** So near to the wall its neighbour soil is looked at, cm. */
const BESIDE = 1;

/** What the plants' pull and the pot's own level change in the head that drives water through the wall. */
export function wallWords({ bare, grown }: BedPair, units: UnitSystem): string {
  const [without, among] = [suctionBeside(bare), suctionBeside(grown)];
  const pull = among - without;
  const head = (cm: number) => formatBoth(Math.max(cm, 0), "length", units);
  return `On the last day soil at the wall, at the depth of most roots, holds its water at ${formatSuction(-without)} with nothing planted and at ${formatSuction(-among)} among full-grown ${plantsOf(grown.plan)}: they add a pull of ${head(pull)} of water. ${levelWords(bare, pull, head)}`;
}

function suctionBeside({ plan, run }: Bed): number {
  return Math.max(-headFromWall(plan, run, last(run.frames), BESIDE), 0);
}

function levelWords({ plan, run }: Bed, pull: number, head: (cm: number) => string): string {
  const pot = buildPot(plan.pot);
  const levels = run.history.waterLevelDepth;
  const highest = Math.min(...levels);
  const fall = Math.max(...levels) - highest;
  const stands = `The water in the pot stands up to ${head(pot.emptyDepth - highest)} above the inner base`;
  if (plan.filling.kind === "float") return `${stands}, where the float keeps it.`;
  return `${stands} and falls by ${head(fall)} until it is filled again or the days end, so ${fall > pull ? "the pot’s own level counts for more than the plants" : "here the plants’ pull counts for more than the pot’s own level"}.`;
}

export function wetWords({ bare }: Pick<Beds, "bare">, units: UnitSystem): string {
  const pot = buildPot(bare.plan.pot);
  return `Into wet surroundings: where water stands in the soil as high as in the pot, no difference of head is left, and by the law of the wall nothing passes, however open its pores (from the law alone, without a run). ${rimWords(pot, units)}That much of the claim holds: the nearer soil is to soaked, the less a pot gives to it.`;
}

function rimWords(pot: ReturnType<typeof buildPot>, units: UnitSystem): string {
  if (pot.fullDepth >= 0) return "";
  const into = releaseIntoStandingWater(pot, pot.fullDepth);
  const share = percent(into / releaseIntoSuction(pot, pot.fullDepth, 0));
  return `Filled to the rim, which stands ${formatBoth(-pot.fullDepth, "length", units)} above the soil, your pot would give ${formatBoth(into, "flow", units)} into soil with water up to its surface, ${share} of what it gives into soaked soil that drains. `;
}

/** How steep and how straight the relation is. */
export function demandWords({ spread, gathered }: Demands, soil: string, units: UnitSystem): string {
  const [least, most] = [first(TRIED_DEMANDS), last(TRIED_DEMANDS)].map((mm) => formatBoth(mm, "rain", units));
  return `In ${soil} the pot gives ${rise(spread)} where the air asks for ${most} a day than where it asks for ${least} and roots are spread; where they gather at the wall, ${rise(gathered)}. ${straightness({ spread, gathered })}`;
}

const riseOf = ({ points }: DemandLine) => riseWithDemand(points.map(({ given }) => given));

function rise(demands: DemandLine): string {
  const words = moreWords(riseOf(demands));
  return words === "as much" ? "no more" : words;
}

function straightness({ spread, gathered }: Demands): string {
  const [ofSpread, ofGathered] = [spread.line.explained, gathered.line.explained];
  const areStraight = isStraight(spread.line) && isStraight(gathered.line);
  return `A straight line accounts for ${ofSpread.toFixed(2)} and ${ofGathered.toFixed(2)} of the differences (R²), so ${areStraight ? "the model’s release is close to linear in the thirst of the air" : "the model’s release is not well told by a straight line"}${flatness({ spread, gathered })}.`;
}

function flatness({ spread, gathered }: Demands): string {
  const isFlat = (demands: DemandLine) => Math.abs(riseOf(demands)) < HARDLY;
  if (!isFlat(spread)) return "";
  return isFlat(gathered) ? ", but nearly flat" : ", but nearly flat unless roots gather";
}
