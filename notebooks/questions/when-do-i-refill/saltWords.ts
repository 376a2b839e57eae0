/** Salt: what is published, and what a gardener does about it. Nothing of it is worked out by the flow model. */
import { first, type Plan } from "../../../model/public/plan.ts";
import { formatBoth, MG_PER_G, type UnitSystem } from "../../../model/public/units.ts";
import { rowNamed, type SaltRow, salt, sourceOf } from "../../../reference-data/load.ts";
import type { Block, Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { cropName } from "../../words/planWords.ts";
import { sentenceCase } from "../../words/words.ts";

type RowOf<S extends SaltRow["source"]> = Extract<SaltRow, { source: S }>;

const rowsOf = <S extends SaltRow["source"]>(source: S): RowOf<S>[] =>
  salt().rows.filter((row): row is RowOf<S> => row.source === source);

function cited(name: string, column: string): string {
  const { citation, flag } = sourceOf(salt(), rowNamed(salt(), name), column);
  return `${citation} Value: ${flag}`;
}

export function waterTable(): Table {
  const rows = rowsOf("ayersWestcot1985");
  const caption = `Salt in water, by its electrical conductivity (${cited(first(rows).name, "waterDSm")})`;
  return tableOf("water-classes", caption, rows, [
    ["use on beds", ({ name }) => name],
    ["from (dS/m)", ({ waterDSm }) => waterDSm.min, 1],
    ["to (dS/m)", ({ waterDSm }) => waterDSm.max ?? "and more", 1],
  ]);
}

/** Grams of salt that litres of water of some conductivity (dS/m) bring. */
export const saltGrams = (litres: number, dSm = 1): number =>
  (litres * dSm * first(rowsOf("dissolvedSalt")).saltMgPerLitre) / MG_PER_G;

export function saltWords(plan: Plan, litres: number, span: string, units: UnitSystem): Block[] {
  const dissolved = first(rowsOf("dissolvedSalt"));
  const saline = first(rowsOf("siyal2015"));
  return [
    `Water takes its salt along through the wall and as far as it spreads. Where it goes off into air and roots the salt stays behind: with hard or salty water it gathers at the wetting front and in the wall. No movement of salt is worked out here. Water of 1 dS/m holds about ${dissolved.saltMgPerLitre} mg in a litre (${cited(dissolved.name, "saltMgPerLitre")}), so the ${formatBoth(litres, "volume", units)} ${span} would bring ${saltGrams(litres).toPrecision(2)} g of salt.`,
    thresholdWords(plan),
    `Pots of saline water gave ${saline.seepageLossPercent} % less than pots of fresh water in one trial (${cited(saline.name, "seepageLossPercent")}).`,
    "What gardeners do (common practice, no source): once or twice a year let rain or plenty of fresh water from above wash the ground about the pot; scrub the wall and soak the pot in fresh water, and replace it when a white crust keeps coming back or it no longer seeps; have water and soil tested every year where water is hard or salty.",
  ];
}

function thresholdWords(plan: Plan): string {
  const row = rowsOf("maasHoffman1977").find(({ name }) => name === plan.crop.name);
  if (!row) return `At how much salt in the soil ${cropName(plan)} begins to suffer is not in our list.`;
  return `${sentenceCase(row.name)} yields less once the water drawn from a soaked sample of its soil measures more than ${row.thresholdDSm} dS/m (${cited(row.name, "thresholdDSm")}).`;
}
