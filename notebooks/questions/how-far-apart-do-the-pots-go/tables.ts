/** The numbers of the pictures, and what fewer pots come to. */

import type { BedSpacings } from "../../../model/public/advice.ts";
import { potsFor, type SpacingAdvice } from "../../../model/public/advice.ts";
import { potLitres } from "../../../model/public/flow.ts";
import { fromModel, suctionKPa, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import type { SpacingAnswer } from "./spacingWords.ts";

export function readingTable({ readings }: BedSpacings, plan: SpacingAnswer["plan"], units: UnitSystem): Table {
  const caption = "How hard the ground midway between two pots holds its water, and how many pots the bed takes";
  return tableOf("midway", caption, readings, [
    [`from pot to pot (${unitOf("length", units)})`, ({ spacing }) => fromModel(spacing, "length", units), 1],
    ["suction midway (kPa)", ({ midwayHead }) => Math.max(suctionKPa(midwayHead), 0), 1],
    ["pots in the bed", ({ spacing }) => potsFor(plan, spacing), 0],
  ]);
}

/** Beds side by side: how far apart, how many pots, and the water of one round. */
export function comparedTable(
  name: string,
  caption: string,
  rows: readonly { label: string; found: BedSpacings }[],
  plan: SpacingAnswer["plan"],
  units: UnitSystem,
): Table {
  const beds = rows.map(({ label, found: { plan: own, advice } }) => {
    const pots = potsFor({ pot: own.pot, bed: { ...plan.bed, grid: own.bed.grid } }, advice.spacing);
    return { label, advice, pots, litres: pots * potLitres(own.pot) };
  });
  return tableOf(name, caption, beds, [
    ["bed", ({ label }) => label],
    [`largest spacing (${unitOf("length", units)})`, ({ advice }) => spacingFigure(advice, units)],
    ["pots in the bed", ({ pots }) => String(pots)],
    [`to fill them all (${unitOf("volume", units)})`, ({ litres }) => fromModel(litres, "volume", units), 1],
  ]);
}

function spacingFigure({ kind, spacing }: SpacingAdvice, units: UnitSystem): string {
  const number = String(Math.round(2 * fromModel(spacing, "length", units)) / 2);
  return { found: number, none: `not even ${number}`, beyond: `${number} or more` }[kind];
}
