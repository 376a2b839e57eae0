/** The answer in words. */

import { COMPARED_DAYS, ENOUGH, hardGround, LAST_DAYS } from "../../../model/public/advice.ts";
import { last, monthName } from "../../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import { dayWords, soilName } from "../../words/planWords.ts";
import { type Bed, type BedPair, plantsOf } from "./stages.ts";

/** Rises in what the pot gives, full-grown plants against none, up to which the answer is “hardly” and “a little”: our own choice. */
export const HARDLY = 0.1;
export const A_LITTLE = 0.3;

/** A pot that is empty for a larger share of the days gives its fillings and no more: our own choice. */
const OFTEN_EMPTY = 0.1;

/** A larger rise of the share at the end is worth a mention: our own choice. */
const CLEARLY = 0.05;

/** What is given more with full-grown plants, as a share of what is given with nothing planted; 0 where nothing is. */
export function riseWithPlants({ bare, grown }: BedPair): number {
  return bare.use.given > 0 ? grown.use.given / bare.use.given - 1 : 0;
}

/** Whether the filling decides what is given, and not what the wall can pass. */
function isFillingShort(beds: BedPair): boolean {
  const { emptyDays, givenByDay } = beds.bare.use;
  return emptyDays >= OFTEN_EMPTY * givenByDay.length && riseWithPlants(beds) < HARDLY;
}

export function answerSentence(beds: BedPair, units: UnitSystem): string {
  const { bare, grown } = beds;
  const given = ({ use }: Bed) => formatBoth(use.given, "flow", units);
  const place = `in your ${soilName(bare.plan)}`;
  const plants = plantsOf(grown.plan);
  if (grown.use.wanted === 0)
    return `There is nothing to follow: in ${monthName(bare.plan.month)} ${plants} want no water at your place, and ${place} the pot gives ${given(bare)} whatever grows.`;
  const wants = `want ${formatBoth(grown.use.wanted, "flow", units)} and get ${metWords(grown)}`;
  if (isFillingShort(beds))
    return `It cannot: ${place} the pot stands empty for ${dayWords(Number(bare.use.emptyDays.toFixed(1)))} of ${COMPARED_DAYS} even with nothing planted, so it gives its fillings and no more, ${given(grown)}, to full-grown ${plants}, which ${wants}.`;
  return `${verdict(riseWithPlants(beds))}: ${place} the pot gives ${given(bare)} with nothing planted and ${given(grown)} with full-grown ${plants}, which ${wants}.`;
}

export function verdict(rise: number): string {
  if (rise < 0) return rise < -HARDLY ? "No" : "Hardly";
  if (rise < HARDLY) return "Hardly";
  return rise < A_LITTLE ? "A little" : "Yes, noticeably";
}

/** "all of it"; "82 % of it, 98 % in the last 3 days"; "60 % of it, for much of their ground stands too dry". */
function metWords(bed: Bed): string {
  const { met, metAtEnd } = bed.use;
  const share = percent(met);
  if (share === "100 %") return "all of it";
  if (met >= ENOUGH) return `${share} of it`;
  if (metAtEnd >= Math.max(ENOUGH, met + CLEARLY))
    return `${share} of it, ${allOr(metAtEnd)} in the last ${LAST_DAYS} days`;
  return `${share} of it, for much of their ground stands too ${troubleOf(bed)}`;
}

/** What most of the ground that is hard to drink from suffers from at the end. */
function troubleOf({ plan, run }: Bed): "wet" | "dry" {
  const { tooWet, tooDry } = hardGround(plan, run, last(run.frames));
  return tooWet > tooDry ? "wet" : "dry";
}

const allOr = (share: number) => (percent(share) === "100 %" ? "all of it" : percent(share));

export const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** A rise or fall in words: "3 % more", "as much". */
export function moreWords(rise: number): string {
  const share = percent(Math.abs(rise));
  return share === "0 %" ? "as much" : `${share} ${rise > 0 ? "more" : "less"}`;
}
