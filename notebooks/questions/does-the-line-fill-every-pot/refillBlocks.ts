/** What a refill by the plan takes from the tank, and how long that is. */

import { type FilledLine, filledLine, type LinedBed } from "../../../model/public/advice.ts";
import { potLitres } from "../../../model/public/flow.ts";
import type { PottedGround } from "../../../model/public/plan.ts";
import { formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import type { Block } from "../../notebook/notebook.ts";
import { dayWords, soilName } from "../../words/planWords.ts";
import { refillTable } from "./tables.ts";

export interface LineRefill {
  plan: PottedGround;
  /** Of each pot: in a refill, or in a day where floats keep it full. */
  litres: number;
  empty: FilledLine;
  /** null where the plan has no refills. */
  refill: FilledLine | null;
}

/** `bed` with its line as it is now; `plan` is the ground whose pots take `litres`. */
export function* lineRefill(bed: LinedBed, plan: PottedGround, litres: number): Generator<void, LineRefill> {
  const empty = filledLine(bed);
  yield;
  const capacity = potLitres(empty.plan.pot);
  const refill = plan.filling.kind === "every" ? filledLine(bed, { litresEach: Math.min(litres, capacity) }) : null;
  return { plan, litres, empty, refill };
}

export function refillBlocks({ plan, litres, empty, refill }: LineRefill, units: UnitSystem): Block[] {
  const each = formatBoth(litres, "volume", units);
  const { filling } = plan;
  const soil = soilName({ ...plan, units });
  const name = filling.kind === "every" ? `a refill after ${dayWords(filling.days)}` : "";
  const fillings = [{ name: "from empty", filled: empty }, ...(refill ? [{ name, filled: refill }] : [])];
  const text = {
    float: `With floats the pots stay full: each takes ${each} a day in your ${soil}, which the line gives drop by drop.`,
    once: "Your plan fills the pots once, from empty.",
    every: `By the flow of water in your ${soil} each pot takes ${each} in ${name}; “When do I refill?” tells how long that may be. Leave the valve open for the minutes of the row that you are at.`,
  };
  return [refillTable(fillings, units), text[filling.kind]];
}
