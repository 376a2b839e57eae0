/** The answer in words. */

import {
  COMPARED_DAYS,
  ENOUGH,
  hardGroundCause,
  isBetterAtEnd,
  isFillingShort,
  LAST_DAYS,
  riseVerdict,
  riseWithPlants,
} from "../../../model/public/advice.ts";
import { last, monthName } from "../../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import { dayWords, soilName } from "../../words/planWords.ts";
import { type Bed, type BedPair, plantsOf } from "./stages.ts";

/** The water that goes in and out of them. */
export const usesOf = ({ bare, grown }: BedPair) => ({ bare: bare.use, grown: grown.use });

export function answerSentence(beds: BedPair, units: UnitSystem): string {
  const { bare, grown } = beds;
  const given = ({ use }: Bed) => formatBoth(use.given, "flow", units);
  const place = `in your ${soilName(bare.plan)}`;
  const plants = plantsOf(grown.plan);
  if (grown.use.wanted === 0)
    return `There is nothing to follow: in ${monthName(bare.plan.month)} ${plants} want no water at your place, and ${place} the pot gives ${given(bare)} whatever grows.`;
  const wants = `want ${formatBoth(grown.use.wanted, "flow", units)} and get ${metWords(grown)}`;
  if (isFillingShort(usesOf(beds)))
    return `It cannot: ${place} the pot stands empty for ${dayWords(Number(bare.use.emptyDays.toFixed(1)))} of ${COMPARED_DAYS} even with nothing planted, so it gives its fillings and no more, ${given(grown)}, to full-grown ${plants}, which ${wants}.`;
  return `${verdict(riseWithPlants(usesOf(beds)))}: ${place} the pot gives ${given(bare)} with nothing planted and ${given(grown)} with full-grown ${plants}, which ${wants}.`;
}

const verdictWords = { no: "No", hardly: "Hardly", "a little": "A little", noticeably: "Yes, noticeably" };

export const verdict = (rise: number): string => verdictWords[riseVerdict(rise)];

/** "all of it"; "82 % of it, 98 % in the last 3 days"; "60 % of it, for much of their ground stands too dry". */
function metWords(bed: Bed): string {
  const { met, metAtEnd } = bed.use;
  const share = percent(met);
  if (share === "100 %") return "all of it";
  if (met >= ENOUGH) return `${share} of it`;
  if (isBetterAtEnd(bed.use)) return `${share} of it, ${allOr(metAtEnd)} in the last ${LAST_DAYS} days`;
  return `${share} of it, for much of their ground stands too ${hardGroundCause(bed.plan, bed.run, last(bed.run.frames))}`;
}

const allOr = (share: number) => (percent(share) === "100 %" ? "all of it" : percent(share));

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** A rise or fall in words: "3 % more", "as much". */
export function moreWords(rise: number): string {
  const share = percent(Math.abs(rise));
  return share === "0 %" ? "as much" : `${share} ${rise > 0 ? "more" : "less"}`;
}
