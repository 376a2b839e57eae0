import { bisector, sum } from "d3-array";
import { CALM, type Spell } from "./problem.ts";

const byStart = bisector(({ fromDay }: Spell) => fromDay);

/** The spell that a step from day `t` falls in; calm where there is no weather. */
export function spellAt(weather: readonly Spell[], t: number): Spell {
  return weather[byStart.right(weather, t) - 1] ?? CALM;
}

/** What one of the weather's rates has come to since the start, by day `t`, cm. */
export function sinceStart(weather: readonly Spell[], rate: Exclude<keyof Spell, "fromDay">, t: number): number {
  return sum(weather, (spell, k) => {
    const until = Math.min(weather[k + 1]?.fromDay ?? t, t);
    return spell[rate] * Math.max(until - spell.fromDay, 0);
  });
}
