/** How much narrower an answer is among beds that are alike in the number that it goes with most. */
import {
  type Band,
  bandOf,
  type Fifth,
  fifthsOf,
  type Member,
  type NumberedAnswer,
} from "../../../model/public/ensemble.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import type { Scatter } from "./bedsFigure.ts";
import type { Finding } from "./finding.ts";
import type { Input } from "./inputs.ts";
import { inUnits, type LookedAt, unitLookedAt } from "./lookedAt.ts";

/** Numbers that were drawn are in the person's units, answers in the model's. */
export interface Narrowing {
  input: Input;
  dots: NumberedAnswer[];
  all: Band;
  fifths: Fifth[];
  /** Of all members, those still to come included. */
  drawn: number[];
}

export function narrowingOf(
  { beds, plan }: Finding,
  input: Input,
  members: readonly Member[],
  units: UnitSystem,
): Narrowing {
  const numberOf = (member: Member) => input.value(member, plan, units);
  const dots = beds.map(({ member, answer }) => ({ x: numberOf(member), answer }));
  return {
    input,
    dots,
    all: bandOf(dots.map(({ answer }) => answer)),
    fifths: fifthsOf(dots),
    drawn: members.map(numberOf),
  };
}

export function scatterOf({ input, dots, all, fifths, drawn }: Narrowing, at: LookedAt, units: UnitSystem): Scatter {
  const shown = (value: number) => inUnits(value, at, units);
  const band = ({ low, median, high }: Band) => ({ low: shown(low), median: shown(median), high: shown(high) });
  return {
    dots: dots.map(({ x, answer }) => ({ x, y: shown(answer) })),
    drawn,
    fifths: fifths.map((fifth) => ({ ...fifth, ...band(fifth) })),
    all: band(all),
    x: { label: `${input.name} (${input.unit(units)})`, isLog: input.isLog ?? false },
    y: { label: `${at.axis} (${unitLookedAt(at, units)})`, beyondWords: at.beyondWords },
  };
}
