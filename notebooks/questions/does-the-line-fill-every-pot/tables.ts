/** The numbers of the pictures, what would help, and what a refill takes. */
import { sum } from "d3-array";
import type { FilledLine, LinedBed, TriedChange, TriedChanges } from "../../../model/public/advice.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";
import { whyNever } from "../../words/lineWords.ts";
import type { LossStage } from "./lossFigure.ts";

export function potTable({ filling }: FilledLine, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const rowOf = (pot: number) => filling.bedLine.rows.findIndex((row) => row.includes(pot)) + 1;
  return tableOf("pots", "Each pot, filled from empty out of the full tank", filling.pots, [
    ["pot", (_, pot) => String(pot + 1)],
    ["row", (_, pot) => String(rowOf(pot))],
    ["full after (minutes)", ({ minutes, why }) => minutes ?? `never: ${whyNever(why)}`, 1],
    [`water got (${volume})`, ({ litres }) => fromModel(litres, "volume", units), 1],
    [`run over its rim (${volume})`, ({ overflowLitres }) => fromModel(overflowLitres, "volume", units), 1],
    [
      `flow at the start (${unitOf("emitter flow", units)})`,
      ({ startFlow }) => fromModel(startFlow, "emitter flow", units),
      1,
    ],
  ]);
}

export function lossTable(stages: LossStage[], available: number, pot: number, units: UnitSystem): Table {
  const caption = `Where the ${formatBoth(100 * available, "length", units)} from the full tank’s water down to the end of the tube of pot ${pot + 1} are lost, at the start`;
  return tableOf("losses", caption, stages, [
    ["where", ({ name }) => name],
    [`head lost (${unitOf("length", units)})`, ({ head }) => fromModel(100 * head, "length", units), 1],
    ["share (%)", ({ head }) => (available > 0 ? (100 * head) / available : "–"), 0],
  ]);
}

export function changesTable({ asItIs, tried }: TriedChanges, units: UnitSystem): Table {
  const changed = tried.map((change) => ({ name: changeWords(change, asItIs.plan, units), filling: change.filling }));
  const lines = [{ name: "as it is", filling: asItIs.filling }, ...changed];
  return tableOf("changes", "The same line with one thing changed", lines, [
    ["line", ({ name }) => name],
    ["first pot full (minutes)", ({ filling }) => filling.firstMinutes ?? "never", 1],
    ["last pot full (minutes)", ({ filling }) => filling.valveMinutes ?? "never", 1],
    [
      `run over rims (${unitOf("volume", units)})`,
      ({ filling }) => fromModel(filling.overflowLitres, "volume", units),
      1,
    ],
    ["evenness of the flows (%)", ({ filling }) => filling.evenness.ofFlows ?? "–", 0],
  ]);
}

function changeWords({ name, plan }: TriedChange, from: LinedBed, units: UnitSystem): string {
  const both = (value: number, quantity: "bore" | "length" | "distance") => formatBoth(value, quantity, units);
  const { line, tank } = plan;
  switch (name) {
    case "wider tubes":
      return `small tubes ${both(line.tubeBore, "bore")} wide`;
    case "wider row pipes":
      return `pipes along the rows ${both(line.rowBore, "bore")} wide`;
    case "wider main":
      return `main ${both(line.mainBore, "bore")} wide`;
    case "higher tank":
      return `tank ${both(tank.outletHeight - from.tank.outletHeight, "length")} higher`;
    case "ball valve":
      return "ball valve in place of the garden tap";
    case "shorter tubes":
      return `small tubes half as long, ${both(line.tubeLength, "length")}`;
    case "shorter main":
      return `main half as long, ${both(line.mainLength, "distance")}`;
    case "warmer water":
      return `water of ${formatBoth(line.celsius, "temperature", units)}`;
  }
}

/** A filling from empty, and a refill beside it. */
export function refillTable(fillings: { name: string; filled: FilledLine }[], units: UnitSystem): Table {
  const litres = ({ filling }: FilledLine) => sum(filling.pots, (pot) => pot.litres + pot.overflowLitres);
  return tableOf("refills", "What all pots take out of the full tank", fillings, [
    ["filling", ({ name }) => name],
    [`water in all (${unitOf("volume", units)})`, ({ filled }) => fromModel(litres(filled), "volume", units), 1],
    ["share of the full tank (%)", ({ filled }) => (100 * litres(filled)) / filled.plan.tank.litres, 0],
    ["first pot full (minutes)", ({ filled }) => filled.filling.firstMinutes ?? "never", 1],
    ["last pot full (minutes)", ({ filled }) => filled.filling.valveMinutes ?? "never", 1],
  ]);
}
