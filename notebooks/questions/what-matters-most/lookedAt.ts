/** The answers whose spread is looked into. */

import { OUTCOME_DAYS, type Outcome } from "../../../model/public/ensemble.ts";
import { entry, last, type Plan } from "../../../model/public/plan.ts";
import {
  bothSystems,
  format,
  formatBoth,
  fromModel,
  rounded,
  type UnitSystem,
  unitOf,
} from "../../../model/public/units.ts";

export const looks = ["radius", "given", "lasts", "outer"] as const;

export type Look = (typeof looks)[number];

/** One answer of a bed, on a day where it has one. */
export interface LookedAt {
  /** In the middle of a sentence. */
  words: string;
  /** Of an axis, without its unit. */
  axis: string;
  /** cm, litres or days; `isBeyond` where it lies outside what was watched. */
  value(outcome: Outcome): number;
  beyondWords: string;
  measure: "length" | "volume" | "days";
}

/**
 * Stands for more than was watched, so that such a bed still has its place in the order. Small enough that rounding of a
 * percentile's place adds nothing.
 */
const BEYOND = 1e9;

/** In any unit, and of a percentile between a bed's answer and one beyond. */
export const isBeyond = (value: number): boolean => value > 1e6;

export const lastDay = last(OUTCOME_DAYS);

export function lookedAt(look: Look, plan: Plan, day: number): LookedAt {
  switch (look) {
    case "radius":
      return {
        words: `how far water reaches by day ${day}`,
        axis: `wetted radius on day ${day}`,
        value: ({ radius }) => entry(radius, OUTCOME_DAYS.indexOf(day)),
        beyondWords: "",
        measure: "length",
      };
    case "given":
      return {
        words: `the water given by day ${lastDay}`,
        axis: `water given by day ${lastDay}`,
        value: ({ seepageLitres }) => seepageLitres,
        beyondWords: "",
        measure: "volume",
      };
    case "lasts":
      return {
        words: "how long a filling lasts",
        axis: "how long a filling lasts",
        value: ({ emptyDay }) => emptyDay ?? BEYOND,
        beyondWords: `not empty by day ${watchedOnce(plan)}`,
        measure: "days",
      };
    case "outer":
      return {
        words: "how far out a crop can be sown",
        axis: "outer sowing limit, from the wall",
        value: ({ sowing }) => (sowing.isOuterAtLeast ? BEYOND : sowing.outer),
        beyondWords: "moist as far as was looked",
        measure: "length",
      };
  }
}

const watchedOnce = ({ days }: Plan) => Math.max(days, lastDay);

/** What its members are made from: how long a filling lasts can only be seen of a pot that is left alone. */
export function planLookedAt(look: Look, plan: Plan): Plan {
  return look === "lasts" ? { ...plan, filling: { kind: "once" }, days: watchedOnce(plan) } : plan;
}

export const inUnits = (value: number, { measure }: LookedAt, units: UnitSystem): number =>
  measure === "days" ? value : fromModel(value, measure, units);

export const unitLookedAt = ({ measure }: LookedAt, units: UnitSystem): string =>
  measure === "days" ? "days" : unitOf(measure, units);

/** "10 to 18 in (25 to 45 cm)". */
export function rangeWords({ low, high }: { low: number; high: number }, at: LookedAt, units: UnitSystem): string {
  if (isBeyond(low)) return at.beyondWords;
  if (isBeyond(high)) return `${amount(low, at, units)} and more`;
  const { measure } = at;
  if (measure === "days") return `${rounded(low, "cm")} to ${rounded(high, "cm")} days`;
  const [first, second] = bothSystems(units).map(
    (system) =>
      `${rounded(fromModel(low, measure, system), unitOf(measure, system))} to ${format(high, measure, system)}`,
  );
  return `${first} (${second})`;
}

const amount = (value: number, { measure }: LookedAt, units: UnitSystem) =>
  measure === "days" ? `${rounded(value, "cm")} days` : formatBoth(value, measure, units);
