/** The tables to dig and to buy by. */

import type { BedLayout } from "../../model/public/advice.ts";
import { entry, stringLines } from "../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../model/public/units.ts";
import type { Table } from "./notebook.ts";

/** Lengths in cm, or in inches. */
export function stringTable({ pots, pegs }: BedLayout, units: UnitSystem): Table {
  const unit = unitOf("length", units);
  const length = (cm: number) => fromModel(cm, "length", units);
  const lines = stringLines(pegs, pots);
  const isOneSided = new Set(lines.map(({ side }) => side)).size <= 1;
  const digits = 1;
  return {
    kind: "table",
    name: "strings",
    caption: `From peg A and peg B to the middle of each pot${isOneSided ? "" : "; which side of the line from A to B it stands on"}; and how far along the bed and across it`,
    columns: [
      { heading: "pot" },
      { heading: `from A (${unit})`, digits },
      { heading: `from B (${unit})`, digits },
      ...(isOneSided ? [] : [{ heading: "side, from A to B" }]),
      { heading: `along (${unit})`, digits },
      { heading: `across (${unit})`, digits },
    ],
    rows: lines.map(({ a, b, side }, k) => {
      const { x, y } = entry(pots, k);
      const where = isOneSided ? [] : [side === 1 ? "left" : "right"];
      return [String(k + 1), length(a), length(b), ...where, length(x), length(y)];
    }),
  };
}

export function shoppingTable({ parts }: BedLayout, units: UnitSystem): Table {
  const { pots, lids, stoppers, litresPerFill, litresInAll } = parts;
  const length = (cm: number) => formatBoth(cm, "length", units);
  return {
    kind: "table",
    name: "shopping",
    caption: "What the bed takes",
    columns: [{ heading: "what" }, { heading: "how many" }, { heading: "which" }],
    rows: [
      ["pots", String(pots), `unglazed, ${formatBoth(litresPerFill, "volume", units)} to the rim`],
      ...(lids > 0 ? [["lids", String(lids), "too heavy for children and animals to lift, without a gap"]] : []),
      ...(stoppers
        ? [
            [
              "stoppers",
              String(stoppers.count),
              `for holes of ${length(stoppers.hole)}: tapered, ${length(stoppers.smallEnd)} to ${length(stoppers.largeEnd)}`,
            ],
          ]
        : []),
      ["water", formatBoth(litresInAll, "volume", units), "to fill all of them once from empty"],
    ],
  };
}
