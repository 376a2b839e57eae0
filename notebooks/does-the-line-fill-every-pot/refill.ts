/** What a refill by the plan takes from the tank, and how long that is. */
import { buildPot, CM3_PER_LITRE, formatBoth, type Plan, type UnitSystem } from "../../model/index.ts";
import type { Block } from "../lib/notebook.ts";
import { dayWords, soilName } from "../lib/planWords.ts";
import { type FilledLine, filledLine } from "./filledLine.ts";
import { refillTable } from "./tables.ts";

interface Refill {
  plan: Plan;
  /** Of each pot. */
  litres: number;
}

/** `text` is the line's, as it is now; what a refill takes may still be that of a moment ago. */
export function refillBlocks(text: string, empty: FilledLine, { plan, litres }: Refill, units: UnitSystem): Block[] {
  const capacity = buildPot(plan.pot).capacity / CM3_PER_LITRE;
  const each = Math.min(litres, capacity);
  const table = (name: string) => refillTable(empty, { name, filled: filledLine(text, { litresEach: each }) }, units);
  switch (plan.filling.kind) {
    case "float":
      return [
        refillTable(empty, null, units),
        `With floats the pots stay full: each takes ${formatBoth(litres, "volume", units)} a day in your ${soilName(plan)}, which the line gives drop by drop.`,
      ];
    case "once":
      return [refillTable(empty, null, units), "Your plan fills the pots once, from empty."];
    case "every":
      return [
        table(`a refill after ${dayWords(plan.filling.days)}`),
        `By the flow of water in your ${soilName(plan)} each pot takes ${formatBoth(each, "volume", units)} in a refill after ${dayWords(plan.filling.days)}; “When do I refill?” tells how long that may be. The valve stays open for the minutes of its row, not of the first one.`,
      ];
  }
}
