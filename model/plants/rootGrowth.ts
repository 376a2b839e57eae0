import { type StageDays, stageAge } from "./growthStages.ts";

/** How deep roots go, and how far from the stem, cm. */
export interface RootReach {
  depth: number;
  spread: number;
}

/** The reach on a day of a run; straight lines between one knot and the next. */
export interface RootKnot extends RootReach {
  day: number;
}

export interface RootGrowth {
  /** At age 0: of a seed about its sowing depth, of a starter its root ball. */
  start: RootReach;
  /** From the start of mid-season on. */
  full: RootReach;
  stageDays: StageDays;
}

/**
 * Reach of roots during a run of some days that begins when the plants are `age` days old. It grows in a straight line from
 * age 0 to the start of mid-season and stays (after FAO-56, Annex 8, which counts depth so; from memory. The same line for
 * the spread is our own choice, for want of a source). Roots that find water elsewhere grow otherwise.
 */
export function rootGrowth(growth: RootGrowth, { age, days }: { age: number; days: number }): RootKnot[] {
  const stop = stageAge(growth.stageDays, "full grown") - age;
  const knots = stop > 0 && stop < days ? [0, stop, days] : [0, days];
  return knots.map((day) => ({ day, ...rootReach(growth, age + day) }));
}

/** The reach at an age in days. */
export function rootReach({ start, full, stageDays }: RootGrowth, age: number): RootReach {
  const grown = Math.min(1, age / stageAge(stageDays, "full grown"));
  const between = (from: number, to: number) => from + grown * (to - from);
  return { depth: between(start.depth, full.depth), spread: between(start.spread, full.spread) };
}
