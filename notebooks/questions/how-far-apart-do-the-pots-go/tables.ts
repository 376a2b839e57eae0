/** The numbers of the pictures, and what fewer pots come to. */

import { potsFor, type SpacingAdvice } from "../../../model/public/advice.ts";
import { potLitres } from "../../../model/public/flow.ts";
import type { Plan } from "../../../model/public/plan.ts";
import { fromModel, suctionKPa, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import type { Found } from "./found.ts";

export function readingTable({ readings }: Found, plan: Plan, units: UnitSystem): Table {
  return {
    kind: "table",
    name: "midway",
    caption: "How hard the ground midway between two pots holds its water, and how many pots the bed takes",
    columns: [
      { heading: `from pot to pot (${unitOf("length", units)})`, digits: 1 },
      { heading: "suction midway (kPa)", digits: 1 },
      { heading: "pots in the bed", digits: 0 },
    ],
    rows: readings.map(({ spacing, midwayHead }) => [
      fromModel(spacing, "length", units),
      Math.max(suctionKPa(midwayHead), 0),
      potsFor(plan, spacing),
    ]),
  };
}

/** Beds side by side: how far apart, how many pots, and the water of one round. */
export function comparedTable(
  name: string,
  caption: string,
  rows: readonly { label: string; found: Found }[],
  plan: Plan,
  units: UnitSystem,
): Table {
  return {
    kind: "table",
    name,
    caption,
    columns: [
      { heading: "bed" },
      { heading: `largest spacing (${unitOf("length", units)})` },
      { heading: "pots in the bed" },
      { heading: `to fill them all (${unitOf("volume", units)})`, digits: 1 },
    ],
    rows: rows.map(({ label, found }) => {
      const pots = potsFor(
        { pot: found.plan.pot, bed: { ...plan.bed, grid: found.plan.bed.grid } },
        found.advice.spacing,
      );
      const litres = potLitres(found.plan.pot);
      return [label, spacingFigure(found.advice, units), String(pots), fromModel(pots * litres, "volume", units)];
    }),
  };
}

function spacingFigure({ kind, spacing }: SpacingAdvice, units: UnitSystem): string {
  const number = String(Math.round(2 * fromModel(spacing, "length", units)) / 2);
  return { found: number, none: `not even ${number}`, beyond: `${number} or more` }[kind];
}
