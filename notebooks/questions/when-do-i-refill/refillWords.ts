/** When to refill, in words. */

import {
  type Alternative,
  bestOf,
  ENOUGH,
  enoughIntervals,
  type IntervalRange,
  type IntervalShare,
  metShare,
  onDay,
  ownShare,
  shareAt,
  type Verdict,
  verdictOf,
  type WatchedFilling,
  watchedOutcome,
} from "../../../model/public/advice.ts";
import { buildPot, type Run } from "../../../model/public/flow.ts";
import { first, last, monthName, type Plan, type PlanPart } from "../../../model/public/plan.ts";
import { CM3_PER_LITRE, formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import { soilName } from "../../words/planWords.ts";
import { listed, sentenceCase } from "../../words/words.ts";

/** What an answer is made of. */
export interface RefillAnswer {
  plan: Plan;
  run: Run;
  /** null while those of this plan are being worked out. */
  tried: IntervalShare[] | null;
  /** Changes that carry the crop at the plan's own way of filling; null while those of this plan are being worked out. */
  helping: Alternative["name"][] | null;
}

/** Of `RefillAnswer`, with its run read. */
interface RefillReading extends RefillAnswer {
  outcome: WatchedFilling;
  carrying: IntervalRange | null;
  units: UnitSystem;
}

export function answerSentence(told: RefillAnswer, units: UnitSystem): string {
  const outcome = watchedOutcome(told.plan, told.run);
  const read = { ...told, outcome, carrying: told.tried && enoughIntervals(told.tried), units };
  switch (told.plan.filling.kind) {
    case "float":
      return floatSentence(read);
    case "once":
      return onceSentence(read);
    case "every":
      return everySentence(read, told.plan.filling.days);
  }
}

/** "full-grown tomato". */
export function plantsName({ crop, plantStage }: PlanPart<"crop" | "plantStage">): string {
  const stage = plantStage.replace(" ", "-");
  return crop.name ? `${stage} ${crop.name}` : `your ${stage} crop`;
}

/** Where and what: "full-grown tomato in your loam". */
const plantsThere = (plan: Plan): string => `${plantsName(plan)} in your ${soilName(plan)}`;

export const monthWords = ({ month, weather }: PlanPart<"month" | "weather.isExample">): string =>
  `in ${monthName(month)}${weather.isExample ? " of the invented example climate" : ""}`;

/** The same in an answer, where room is dear. */
const monthBriefly = ({ month, weather }: Plan): string =>
  `in ${weather.isExample ? "the example’s invented " : ""}${monthName(month)}`;

/** Rounded down, so that 90 % is never said of less. */
export const wholePercent = (share: number): number => Math.floor(100 * share + 1e-6);
export const percent = (share: number): string => `${wholePercent(share)}\u00a0%`;

const wanted = (share: number): string => `${share > 0.995 ? "all" : percent(share)} of the water it wants`;

/** To half days, and to whole ones from a week on. */
export function halfDays(day: number): string {
  const told = day < 7 ? Math.round(2 * day) / 2 : Math.round(day);
  if (told === 0) return "less than half a day";
  return told === 0.5 ? "half a day" : `${told} ${told === 1 ? "day" : "days"}`;
}

export const everyDays = (days: number): string => (days === 1 ? "every day" : `every ${Number(days.toFixed(2))} days`);

/** "every 4 days or sooner". */
export function adviceWords({ shortest, longest }: IntervalRange, tried: IntervalShare[]): string {
  if (shortest > first(tried).days)
    return shortest === longest
      ? `every ${longest} days, neither sooner nor later`
      : `every ${shortest} to ${longest} days, not sooner`;
  if (longest === last(tried).days) return `every ${longest} days or sooner (no longer wait was tried)`;
  return longest === first(tried).days ? "every day" : `every ${longest} days or sooner`;
}

const WEEK = 7;

/** The verdict on a weekly refill. */
function weeklyWords(tried: IntervalShare[], carrying: IntervalRange | null): string {
  const carries = carrying && carrying.shortest <= WEEK && WEEK <= carrying.longest;
  return carries
    ? "a weekly refill carries it"
    : `a weekly refill cannot carry it and meets ${percent(shareAt(tried, WEEK))} of its thirst`;
}

function everySentence(read: RefillReading, days: number): string {
  const { plan, tried, carrying, outcome } = read;
  const who = `${monthBriefly(plan)}, filled ${everyDays(days)}, ${plantsThere(plan)}`;
  if (!tried)
    return `${sentenceCase(who)} ${courseWords(read, "a refill")}; how often to refill is still being worked out.`;
  if (!carrying) return noneSentence(read, tried);
  const share = ownShare(plan, read.run, outcome);
  const verdict = verdictOf({ days, share, cause: outcome.sufferCause }, carrying, tried);
  const own = ownWords(read, days, verdict, share);
  return `Refill ${adviceWords(carrying, tried)}: ${who} ${own}${days === WEEK ? weeklyVerdict(verdict) : `; ${weeklyWords(tried, carrying)}`}.`;
}

/** Where a week is the plan's own interval, of which the share has been told. */
const weeklyVerdict = (verdict: Verdict): string =>
  verdict === "carries" || verdict === "catching up" ? "" : "; a weekly refill cannot carry it";

function ownWords(read: RefillReading, days: number, verdict: Verdict, share: number): string {
  switch (verdict) {
    case "carries":
    case "untried":
      return courseWords(read, read.outcome.fromDay === 0 ? "the first filling" : "a refill");
    case "catching up":
      return `gets ${wanted(share)} after a fortnight, while the dry ground still fills, and enough in the long run`;
    case "fails later":
      return `still gets ${wanted(share)} after a fortnight, but not enough in the long run`;
    case "fails":
      return `gets ${wanted(share)}${whyWords(read, days)}`;
  }
}

/** Why one refill does not last until the next. */
function whyWords({ outcome: { sufferCause, emptyDays } }: RefillReading, days: number): string {
  if (sufferCause === "wet") return ", for the soil about its roots is too wet";
  if (emptyDays !== null && emptyDays < days) return `, for the pot is empty ${halfDays(emptyDays)} after a refill`;
  return ", for the pot, though never empty, gives its water too slowly";
}

/** How long plants do well after a filling. */
function courseWords({ plan, run, outcome, units }: RefillReading, filling: string): string {
  const { sufferDays, sufferCause, fromDay } = outcome;
  if (sufferDays === null) {
    const weeks = Math.floor((last(run.history.day) - fromDay) / WEEK);
    return `does not suffer within ${["", "one", "two", "three", "four"][weeks]} weeks of ${filling}${restWords(outcome)}`;
  }
  if (sufferDays < 0.25)
    return `suffers from soil that is too ${sufferCause} at ${filling}, and gets ${wanted(ownShare(plan, run, outcome))}`;
  const begins = `begins to suffer ${halfDays(sufferDays)} after ${filling}`;
  return sufferCause === "wet"
    ? `${begins}, from soil that is too wet`
    : `${begins}, ${potThen(plan, run, outcome, sufferDays, units)}`;
}

const restWords = ({ emptyDays, quarterDays }: WatchedFilling): string => {
  if (emptyDays !== null) return `, though the pot is empty after ${halfDays(emptyDays)}`;
  return quarterDays === null ? "" : `, and the pot is at a quarter after ${halfDays(quarterDays)}`;
};

/** Less than this share of the pot counts as nothing. */
const DREGS = 0.05;

/** The pot when plants begin to suffer from dryness. */
export function potThen(plan: Plan, run: Run, outcome: WatchedFilling, sufferDays: number, units: UnitSystem): string {
  const { emptyDays, fromDay } = outcome;
  const pot = buildPot(plan.pot);
  const left = pot.volumeAt(onDay(run, run.history.waterLevelDepth, fromDay + sufferDays));
  if (left > DREGS * pot.capacity)
    return `while the pot still holds ${formatBoth(left / CM3_PER_LITRE, "volume", units)}`;
  const empty = sufferDays - (emptyDays ?? sufferDays);
  return empty < 0.5 ? "as the pot runs empty" : `when the pot has stood empty for ${halfDays(empty)}`;
}

/** Where no interval tried carries the crop: the best of them, the plan's own, a weekly one, and what would. */
function noneSentence({ plan, run, outcome, helping }: RefillReading, tried: IntervalShare[]): string {
  const { filling } = plan;
  const best = bestOf(tried);
  const own = filling.kind === "every" ? filling.days : null;
  const others = [
    ...(own !== null && own !== best.days && own !== WEEK
      ? [`${percent(ownShare(plan, run, outcome))} ${everyDays(own)} as planned`]
      : []),
    ...(best.days !== WEEK ? [`${percent(shareAt(tried, WEEK))} weekly`] : []),
  ];
  const rest = others.length > 0 ? `, ${listed(others)}` : "";
  return `No refill by hand carries ${plantsThere(plan)} ${monthBriefly(plan)}: even filled ${everyDays(best.days)} it gets ${wanted(best.share)}${rest}; ${helpWords(plan, helping)}.`;
}

/** Names of changes, as they stand in a sentence. */
export const changeNames: Record<Alternative["name"], string> = {
  "bigger pot": "a pot twice the size",
  "second pot": "a second pot",
  "full mulch": "mulch on all of the ground",
  lid: "a lid on the pot",
};

export const fillingWords = ({ filling }: Plan): string => {
  if (filling.kind === "every") return `filled ${everyDays(filling.days)}`;
  return filling.kind === "float" ? "kept full by a float" : "filled once";
};

function helpWords(plan: Plan, helping: RefillAnswer["helping"]): string {
  if (helping === null) return "what would help is still being worked out";
  if (helping.length === 0) return `${fillingWords(plan)}, none of the changes told below is enough by itself`;
  const names = helping.map((name) => changeNames[name]);
  return `${listed(names, "or")} would be enough, ${fillingWords(plan)}`;
}

function onceSentence(read: RefillReading): string {
  const { plan, run, tried, carrying, outcome } = read;
  const who = `${monthBriefly(plan)}, filled once, ${plantsThere(plan)}`;
  if (outcome.sufferDays === null || metShare(run, FORTNIGHT, last(run.history.day)) >= ENOUGH)
    return `One filling is enough for the four weeks looked at: ${who} ${fourWeeks(read)}.`;
  const share = ownShare(plan, run, outcome);
  const own =
    share >= ENOUGH
      ? courseWords(read, "the filling")
      : `gets ${wanted(share)} in the fortnight after${outcome.sufferCause === "wet" ? ", for the soil about its roots is too wet" : ""}`;
  if (!tried) return `Once is not enough: ${who} ${own}; how often to refill is still being worked out.`;
  if (!carrying) return noneSentence(read, tried);
  return `Once is not enough, refill ${adviceWords(carrying, tried)}: ${who} ${own}; ${weeklyWords(tried, carrying)}.`;
}

const FORTNIGHT = 14;

function fourWeeks(read: RefillReading): string {
  const { run, outcome } = read;
  if (outcome.sufferDays === null) return courseWords(read, "it");
  return `gets ${wanted(metShare(run, 0, last(run.history.day)))}`;
}

/** A float's pot is never refilled by hand: litres a week instead, and what it would take without the float. */
function floatSentence(read: RefillReading): string {
  const { plan, outcome, units } = read;
  const { metBefore, litres, sufferCause } = outcome;
  const week = formatBoth(litres * WEEK, "volume", units);
  const gets = `${monthBriefly(plan)}, ${plantsThere(plan)} gets ${wanted(metBefore)}`;
  if (metBefore >= ENOUGH)
    return `Never, while the float keeps the pot full: ${gets}, and ${week} a week flow in; ${byHandWords(read)}.`;
  const why = sufferCause === null ? "" : `, for the soil about its roots is too ${sufferCause}`;
  return `A float does not serve here: ${gets}${why}, while ${week} a week flow in; ${byHandWords(read)}.`;
}

function byHandWords({ plan, tried, carrying, helping }: RefillReading): string {
  if (!tried) return "how often one would refill by hand is still being worked out";
  if (!carrying) return `no refill by hand carries it, and ${helpWords(plan, helping)}`;
  const weekly = carrying.shortest <= WEEK && WEEK <= carrying.longest ? "" : `, for ${weeklyWords(tried, carrying)}`;
  return `by hand, refill ${adviceWords(carrying, tried)}${weekly}`;
}
