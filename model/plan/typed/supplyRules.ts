/** The checks of a plan's tank and line across its fields, and of its planting day. */

import { MONTHS } from "../../calendar/months.ts";
import { daysOfMonth } from "../../calendar/yearDays.ts";
import { type Fault, figures, type Reader, type Rule } from "../../input/faults.ts";
import { type UnitSystem, unitOf } from "../../units/units.ts";
import { monthName } from "./livingRows.ts";

/** In the person's own units. */
export function supplyRules(units: UnitSystem): Rule[] {
  return [plantingRules, (reader) => fallRules(reader, units), (reader) => humpRules(reader, units)];
}

function plantingRules({ number, word, fault }: Reader): (Fault | false)[] {
  const month = MONTHS.find((name) => name === (word("planting.month") ?? "april"));
  if (month === undefined) return [];
  // 29 February is let pass: it is 1 March in a year without one.
  const last = month === "february" ? 29 : daysOfMonth(month);
  return [number("planting.day") > last && fault("planting.day", `from 1 to ${last}, a day of ${monthName(month)}`)];
}

/** Water runs down to the tubes' ends, or not at all. */
function fallRules({ number, fault }: Reader, units: UnitSystem): (Fault | false)[] {
  const unit = unitOf("length", units);
  const typedEnd = number("line.tube.endHeight");
  const end = Number.isNaN(typedEnd) ? number("pot.rimAboveSoil") : typedEnd;
  const height = number("tank.waterHeight");
  return [
    number("tank.outletHeight") + height <= end &&
      fault(
        "tank.outletHeight",
        `more than ${figures(end - height)} ${unit}: a tank whose water stands no higher than the ends of the small tubes, ${figures(end)} ${unit} above the soil, gives the pots none`,
      ),
  ];
}

function humpRules({ number, fault }: Reader, units: UnitSystem): (Fault | false)[] {
  const lowest = number("line.main.way.lowest");
  const unit = unitOf("length", units);
  return [
    number("line.main.way.highest") < lowest &&
      fault("line.main.way.highest", `at least the main's lowest point, ${figures(lowest)} ${unit}`),
  ];
}
