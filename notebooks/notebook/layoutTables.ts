/** The tables to dig and to buy by. */

import type { BedLayout } from "../../model/public/advice.ts";
import { entry, stringLines } from "../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../model/public/units.ts";
import type { Table } from "./notebook.ts";
import { type Column, tableOf } from "./tables.ts";

/** Lengths in cm, or in inches. */
export function stringTable({ pots, pegs }: BedLayout, units: UnitSystem): Table {
  const unit = unitOf("length", units);
  const length = (cm: number) => fromModel(cm, "length", units);
  const lines = stringLines(pegs, pots).map((line, k) => ({ ...line, ...entry(pots, k) }));
  const isOneSided = new Set(lines.map(({ side }) => side)).size <= 1;
  const whichSide: Column<(typeof lines)[number]> = [
    "side, from A to B",
    ({ side }) => (side === 1 ? "left" : "right"),
  ];
  const caption = `From peg A and peg B to the middle of each pot${isOneSided ? "" : "; which side of the line from A to B it stands on"}; and how far along the bed and across it`;
  return tableOf("strings", caption, lines, [
    ["pot", (_, k) => String(k + 1)],
    [`from A (${unit})`, ({ a }) => length(a), 1],
    [`from B (${unit})`, ({ b }) => length(b), 1],
    ...(isOneSided ? [] : [whichSide]),
    [`along (${unit})`, ({ x }) => length(x), 1],
    [`across (${unit})`, ({ y }) => length(y), 1],
  ]);
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
