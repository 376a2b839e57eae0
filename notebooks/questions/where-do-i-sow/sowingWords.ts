/** Sowing advice in words. */
import {
  driesOut,
  handRule,
  holdsLater,
  SAME,
  type SowingAdvice,
  type SowingBand,
  sowingAdvice,
  sowingRuler,
} from "../../../model/public/advice.ts";
import { plantedDepth, type Run } from "../../../model/public/flow.ts";
import { first, type Plan } from "../../../model/public/plan.ts";
import { format, formatBoth, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { placeWords, rulerNumbers } from "../../words/placeWords.ts";
import { actWords, cropName, soilName } from "../../words/planWords.ts";
import { listed } from "../../words/words.ts";

export function answerSentence(plan: Plan, run: Run, units: UnitSystem): string {
  const advice = sowingAdvice(plan, run);
  switch (advice.kind) {
    case "band":
      return bandSentence(plan, run, advice.band, units);
    case "everywhere":
      return everywhereSentence(plan, advice.innerLimit, units);
    case "nowhere":
      return nowhereSentence(plan, run, advice, units);
  }
}

function bandSentence(plan: Plan, run: Run, band: SowingBand, units: UnitSystem): string {
  const outside = [nearerWords(plan, band, units), fartherWords(plan, run, band, units)].filter(Boolean).join("; ");
  return `In your ${soilName(plan)}, ${actWords(plan)} ${placeWords(band, units)} from the pot’s wall, ${whenWords(plan, run, band)}; ${outside}.`;
}

const dayName = (day: number) => (day === 0 ? "the first filling" : `day ${Number(day.toFixed(1))}`);

function whenWords(plan: Plan, run: Run, band: SowingBand): string {
  const day = dayName(band.sowingDay);
  const when = holdsLater(plan, run, band) ? `from ${day} on` : `on ${band.sowingDay === 0 ? "the day of " : ""}${day}`;
  if (band.isDayChosen) return `${when}, the day you chose${band.isHandWide ? "" : " (narrower than a hand)"}`;
  return band.isHandWide
    ? `${when}, the first day with a band a hand wide`
    : `${when}, when the band is at its widest though narrower than a hand`;
}

function nearerWords({ sowing }: Plan, band: SowingBand, units: UnitSystem): string {
  const [from, to] = rulerNumbers(band.inner, band.outer, units);
  if (Number(from) === 0 || from === to) return "";
  const nearer = `nearer than ${from} ${unitOf("length", units)},`;
  if (sowing.kind === "seed")
    return `${nearer} ${band.innerCause === "soaked" ? "it is too wet" : "the pot is in the way"}`;
  return `${nearer} the root ball ${band.innerCause === "soaked" ? "stands in soaked soil" : "touches the pot"}`;
}

function fartherWords(plan: Plan, run: Run, band: SowingBand, units: UnitSystem): string {
  if (band.isOuterAtLeast) return "farther out it was not looked at";
  const [, to] = rulerNumbers(band.inner, band.outer, units);
  const farther = `farther than ${to} ${unitOf("length", units)}, the soil`;
  const isSeed = plan.sowing.kind === "seed";
  if (driesOut(plan, run, band))
    return `${farther} dries out before ${isSeed ? "seedlings are up" : "roots take hold"}`;
  return isSeed
    ? `${farther} is not yet moist enough on that day`
    : `${farther} is still too dry when watering by hand ends`;
}

function everywhereSentence(plan: Plan, innerLimit: number, units: UnitSystem): string {
  const [place, thing] = plan.sowing.kind === "seed" ? ["sow", "seeds"] : ["plant", "root balls"];
  const keepOff =
    innerLimit >= SAME ? `; only keep ${thing} ${formatBoth(innerLimit, "length", units)} from its wall` : "";
  return `Your ${soilName(plan)} is moist enough everywhere from the start, so the pot does not limit yet where you ${place} ${cropName(plan)}${keepOff}.`;
}

type Nowhere = Extract<SowingAdvice, { kind: "nowhere" }>;

function nowhereSentence(plan: Plan, run: Run, advice: Nowhere, units: UnitSystem): string {
  const act = plan.sowing.kind === "seed" ? "sow" : "plant";
  const why = nowhereWhy(plan, run, advice, units);
  const where = `to ${act} ${cropName(plan)} in your ${soilName(plan)}`;
  if (plan.sowingDay === null)
    return `No day offers a place ${where}: ${why}; try ${listed(helps(plan, advice), "or")}.`;
  const unbound = sowingAdvice({ ...plan, sowingDay: null }, run);
  const better =
    unbound.kind === "band"
      ? `${dayName(unbound.band.sowingDay)} would offer ${placeWords(unbound.band, units)} from the pot’s wall`
      : `try ${listed(helps(plan, advice), "or")}`;
  return `On ${plan.sowingDay === 0 ? "the day of " : ""}${dayName(plan.sowingDay)} there is no place ${where}: ${why}; ${better}.`;
}

function nowhereWhy(plan: Plan, run: Run, { reason, sowingDay, until }: Nowhere, units: UnitSystem): string {
  const isSeed = plan.sowing.kind === "seed";
  const depth = `${formatBoth(plantedDepth(plan), "length", units)} deep`;
  const end = isSeed ? "seedlings are up" : "roots take hold";
  if (reason === "soaked") return `${depth}, what stays moist is soaked and lacks air`;
  if (first(sowingRuler(plan, run, [0])).firstMoistDay === null) return `${depth}, no soil ever gets moist enough`;
  return `${depth}, soil does not ${isSeed ? "stay moist enough" : "stay moist beyond the root ball"} for the ${Number((until - sowingDay).toFixed(1))} days until ${end}`;
}

/** What a gardener could change, most effective first; the sliders show whether it is enough. */
function helps({ filling, sowing, sowingDay }: Plan, { reason }: Nowhere): string[] {
  if (reason === "soaked")
    return [filling.kind === "float" ? "filling every few days" : "filling less often", "a denser wall"];
  const more = { float: [], every: ["filling more often"], once: ["filling again every few days"] }[filling.kind];
  const deeper = sowing.kind === "seed" ? ["sowing deeper"] : [];
  return [...more, "a larger pot", ...deeper, sowingDay === null ? "looking further ahead" : "sowing later"];
}

/** Of one bar of the ruler. */
export function barWords(advice: SowingAdvice, units: UnitSystem): string {
  if (advice.kind === "everywhere") return "moist enough everywhere from the start";
  if (advice.kind === "nowhere") return advice.reason === "dry" ? "no place: too dry" : "no place: too wet";
  const { sowingDay } = advice.band;
  return `${placeWords(advice.band, units)}, day ${Number(sowingDay.toFixed(1))}`;
}

/** What the model makes of the rule to sow within about a hand's width of the wall, for one soil. */
export function handVerdict(name: string, advice: SowingAdvice, units: UnitSystem): string {
  const length = (cm: number) => format(cm, "length", units);
  const rule = handRule(advice);
  if (rule.kind === "fails")
    return `In ${name} the model does not agree: ${rule.reason === "dry" ? "the soil dries out even there" : "the soil there is soaked"}.`;
  if (rule.kind === "taken up")
    return `In ${name} the model does not agree: nearer than ${length(rule.inner)} it is too close to the pot, and that takes up the hand’s width.`;
  const { kind, inner, outer } = rule;
  if (kind === "falls short")
    return `In ${name} the model agrees in part: ${inner === null ? "" : `from ${length(inner)} `}only up to ${length(outer)} stays moist.`;
  const reach = Number.isFinite(outer) ? `up to ${length(outer)}` : "anywhere";
  return inner === null
    ? `In ${name} the model agrees: ${reach} is moist enough.`
    : `In ${name} the model agrees in part: ${reach} is moist enough, but not nearer than ${length(inner)}.`;
}
