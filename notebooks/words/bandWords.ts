/** What an ensemble of soils says, in words; the page and the terminal say the same. */

import { AGREED_SHARE, type Band, type Bands, type Emptying, type Stretch } from "../../model/public/ensemble.ts";
import { ALLOWED_ERROR } from "../../model/public/flow.ts";
import { last, type Plan, type PlanPart, present } from "../../model/public/plan.ts";
import { bothSystems, formatBoth, fromModel, rounded, type UnitSystem, unitOf } from "../../model/public/units.ts";
import { placeWords } from "./placeWords.ts";
import { actWords, cropName, dayWords, soilName } from "./planWords.ts";

/** An ensemble as far as it has come. */
export interface EnsembleBands {
  plan: Plan;
  sowingDay: number;
  /** null where no soil is solved. */
  bands: Bands | null;
  /** Soils that are in, and all that were asked for. */
  count: number;
  total: number;
}

/** Whether something is known of how the plan's soil differs from others of its kind. */
export const hasSpread = ({ soil }: PlanPart<"soil">): boolean => soil.className !== null;

/** "soils called loam". */
export const soilsCalled = ({ soil }: PlanPart<"soil">): string =>
  soil.texture ? "soils of about that texture" : `soils called ${soil.className}`;

/** The day for which the answer says how far water reaches. */
const TOLD_DAY = 7;

export const noSpread =
  "Soil given by its own parameters stands for one soil alone, so there is no band: name the soil, or give its sand, silt and clay, to see how far soils of one name differ.";

/** The answer in one sentence, in the person's units first. */
export function bandSentence(told: EnsembleBands, units: UnitSystem): string {
  const { plan, bands, count, total } = told;
  if (!hasSpread(plan)) return noSpread;
  if (!bands)
    return count === 0
      ? `No soil is worked out yet, so how far ${soilsCalled(plan)} differ cannot be told.`
      : `None of ${count} ${soilsCalled(plan)} could be worked out to the end, so nothing can be told of them.`;
  const soFar = count < total ? ` (so far, from ${count} of ${total} soils)` : "";
  const [where, reach, lasting] = [whereWords(told, bands, units), reachWords(plan, bands, units), lastingWords(bands)];
  return `In ${soilName(plan)}, ${where}; ${reach}, and ${lasting}${soFar}.`;
}

function whereWords({ plan, sowingDay }: EnsembleBands, { sowing, solved }: Bands, units: UnitSystem): string {
  const [act, day, soils] = [actWords(plan), onDayWords(sowingDay), soilsCalled(plan)];
  const { outcome } = sowing.agreement;
  switch (outcome.kind) {
    case "agreed":
      return isNarrow(outcome.stretch)
        ? `${act} ${aboutWords(outcome.stretch, units)} from the pot’s wall ${day}, the one distance on which ${AGREED_WORDS} ${soils} agree`
        : `${act} ${stretchWords(outcome.stretch, units)} ${day}: ${AGREED_WORDS} ${soils} agree`;
    case "best": {
      const most = `most, ${Math.round(outcome.stretch.share * solved)} of ${solved}, agree on`;
      return `no distance from the pot’s wall suits ${AGREED_WORDS} ${soils} to ${act} ${day}; ${most} ${isNarrow(outcome.stretch) ? `${aboutWords(outcome.stretch, units)} from it` : stretchWords(outcome.stretch, units)}`;
    }
    case "none":
      return `no distance from the pot’s wall suits any of ${solved} ${soils} to ${act} ${day}`;
  }
}

/** `AGREED_SHARE` in words. */
export const AGREED_WORDS = `${AGREED_SHARE === 0.8 ? "four of five" : `${100 * AGREED_SHARE} of 100`}`;

const onDayWords = (day: number) =>
  day === 0 ? "on the day of the first filling" : `on day ${Number(day.toFixed(1))}`;

function stretchWords({ from, to, isOuterAtLeast }: Stretch, units: UnitSystem): string {
  if (!isOuterAtLeast) return `${placeWords({ inner: from, outer: to }, units)} from the pot’s wall`;
  return from < 0.5
    ? "at any distance from the pot’s wall"
    : `from ${formatBoth(from, "length", units)} off the pot’s wall outwards`;
}

/** A stretch narrower than this is one distance to a gardener, cm. */
const NARROW = 2;

const isNarrow = ({ from, to }: Stretch): boolean => to - from < NARROW;

const aboutWords = ({ from, to }: Stretch, units: UnitSystem): string =>
  `about ${formatBoth((from + to) / 2, "length", units)}`;

function reachWords(plan: Plan, bands: Bands, units: UnitSystem): string {
  if (plan.startHead >= plan.crop.easyWaterHead)
    return `all of it is moist enough for ${cropName(plan)} from the start`;
  const { low, high } = present(
    bands.radius.find(({ day }) => day === TOLD_DAY),
    `band of day ${TOLD_DAY}`,
  );
  const when = `by day ${TOLD_DAY}`;
  if (high === 0) return `${when} no soil at root depth is moist enough for ${cropName(plan)}`;
  const reach = low === 0 ? `at most ${formatBoth(high, "length", units)}` : spanWords({ low, high }, units);
  return `water reaches ${reach} from its centre ${when}`;
}

/** "9 to 14 in (22 to 35 cm)". */
export function spanWords({ low, high }: Pick<Band, "low" | "high">, units: UnitSystem): string {
  const [first, second] = bothSystems(units).map((system) => {
    const unit = unitOf("length", system);
    const [from, to] = [low, high].map((cm) => rounded(fromModel(cm, "length", system), unit));
    return `${from === to ? from : `${from} to ${to}`} ${unit}`;
  });
  return `${first} (${second})`;
}

const lastingWords = ({ emptying }: Bands): string =>
  emptying.kind === "held" ? "the float keeps the pot full" : `a filling lasts ${emptyingWords(emptying)}`;

/** How long four of five fillings last: "1.8 to more than 3 days". */
export function emptyingWords({ low, high, watched }: Extract<Emptying, { kind: "days" }>): string {
  if (low === null) return `more than ${dayWords(watched)}`;
  const [from, to] = [roughDays(low), high === null ? `more than ${dayWords(watched)}` : roughDays(high)];
  if (from === to) return `about ${from}`;
  const [number, unit] = [from.slice(0, from.indexOf(" ")), from.slice(from.indexOf(" ") + 1)];
  return `${to.includes(unit) ? number : from} to ${to}`;
}

/** To a tenth of a day, or in hours. */
export const roughDays = (day: number): string => dayWords(day < 1 ? day : Number(day.toFixed(1)));

/** How far a band can be trusted: the error of each soil's run, to which the tests hold it, and chance. */
export function finenessWords({ radius, solved }: Bands, units: UnitSystem): string {
  const { day, low, high } = last(radius);
  const allowed = ALLOWED_ERROR.live;
  const [own, band] = [allowed.radius * high, high - low].map((cm) => formatBoth(cm, "length", units));
  const [given, out, down] = [allowed.seepage, allowed.radius, allowed.depth].map((share) => `${100 * share} %`);
  return `Every soil is worked out at the quick setting, which by itself may be off by ${given} in the water given, ${out} in how far water reaches and ${down} in how deep (held by this project’s own tests): by day ${day} at most ${own} in radius, where the band is ${band} wide. With ${solved} soils, chance alone moves a share of ${AGREED_WORDS} by some ${chance(solved)} in 100 from one draw to the next.`;
}

/** Standard deviation of a binomial share, in 100. */
const chance = (count: number): string => (100 * Math.sqrt((AGREED_SHARE * (1 - AGREED_SHARE)) / count)).toFixed(0);
