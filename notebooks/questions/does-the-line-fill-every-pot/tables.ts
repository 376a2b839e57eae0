/** The numbers of the pictures, what would help, and what a refill takes. */
import { sum } from "d3-array";
import type { FilledLine, LinedBed, TriedChange, TriedChanges } from "../../../model/public/advice.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { whyNever } from "../../words/lineWords.ts";
import type { LossStage } from "./lossFigure.ts";

export function potTable({ filling }: FilledLine, units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const rowOf = (pot: number) => filling.bedLine.rows.findIndex((row) => row.includes(pot)) + 1;
  return {
    kind: "table",
    name: "pots",
    caption: "Each pot, filled from empty out of the full tank",
    columns: [
      { heading: "pot" },
      { heading: "row" },
      { heading: "full after (minutes)", digits: 1 },
      { heading: `water got (${volume})`, digits: 1 },
      { heading: `run over its rim (${volume})`, digits: 1 },
      { heading: `flow at the start (${unitOf("emitter flow", units)})`, digits: 1 },
    ],
    rows: filling.pots.map(({ minutes, why, litres, overflowLitres, startFlow }, pot) => [
      String(pot + 1),
      String(rowOf(pot)),
      minutes ?? `never: ${whyNever(why)}`,
      fromModel(litres, "volume", units),
      fromModel(overflowLitres, "volume", units),
      fromModel(startFlow, "emitter flow", units),
    ]),
  };
}

export function lossTable(stages: LossStage[], available: number, pot: number, units: UnitSystem): Table {
  return {
    kind: "table",
    name: "losses",
    caption: `Where the ${formatBoth(100 * available, "length", units)} from the full tank’s water down to the end of the tube of pot ${pot + 1} are lost, at the start`,
    columns: [
      { heading: "where" },
      { heading: `head lost (${unitOf("length", units)})`, digits: 1 },
      { heading: "share (%)", digits: 0 },
    ],
    rows: stages.map(({ name, head }) => [
      name,
      fromModel(100 * head, "length", units),
      available > 0 ? (100 * head) / available : "–",
    ]),
  };
}

export function changesTable({ asItIs, tried }: TriedChanges, units: UnitSystem): Table {
  const row = (name: string, { filling }: Pick<FilledLine, "filling">) => [
    name,
    filling.firstMinutes ?? "never",
    filling.valveMinutes ?? "never",
    fromModel(filling.overflowLitres, "volume", units),
    filling.evenness.ofFlows ?? "–",
  ];
  return {
    kind: "table",
    name: "changes",
    caption: "The same line with one thing changed",
    columns: [
      { heading: "line" },
      { heading: "first pot full (minutes)", digits: 1 },
      { heading: "last pot full (minutes)", digits: 1 },
      { heading: `run over rims (${unitOf("volume", units)})`, digits: 1 },
      { heading: "evenness of the flows (%)", digits: 0 },
    ],
    rows: [row("as it is", asItIs), ...tried.map((change) => row(changeWords(change, asItIs.plan, units), change))],
  };
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
  const rows = fillings.map(({ name, filled: { plan, filling } }) => {
    const litres = sum(filling.pots, (pot) => pot.litres + pot.overflowLitres);
    return [
      name,
      fromModel(litres, "volume", units),
      (100 * litres) / plan.tank.litres,
      filling.firstMinutes ?? "never",
      filling.valveMinutes ?? "never",
    ];
  });
  return {
    kind: "table",
    name: "refills",
    caption: "What all pots take out of the full tank",
    columns: [
      { heading: "filling" },
      { heading: `water in all (${unitOf("volume", units)})`, digits: 1 },
      { heading: "share of the full tank (%)", digits: 0 },
      { heading: "first pot full (minutes)", digits: 1 },
      { heading: "last pot full (minutes)", digits: 1 },
    ],
    rows,
  };
}
