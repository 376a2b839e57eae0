/** What to buy and how to cut it, in both unit systems. */
import { type FilledLine, type Fitting, lineParts, type TubeKind } from "../../model/public/advice.ts";
import { present } from "../../model/public/plan.ts";
import { bothSystems, format, formatBoth, fromModel, type UnitSystem, unitOf } from "../../model/public/units.ts";
import type { Table } from "./notebook.ts";

const tubeNames: Record<TubeKind, string> = {
  main: "main",
  riser: "riser, upright from the main to the rows",
  "cross pipe": "cross pipe between rows",
  "row pipe": "pipe along a row",
  tube: "small tube to a pot",
  "tube between pots": "tube between two pots of a row",
};

const partsOf = ({ plan, pots }: FilledLine) => lineParts(plan, pots);

/** Bores in both systems, in one column each. */
const boreColumns = (units: UnitSystem) =>
  bothSystems(units).map((system) => ({
    heading: `bore (${unitOf("bore", system)})`,
    digits: system === "us" ? 2 : 1,
  }));

const bores = (mm: number, units: UnitSystem) => bothSystems(units).map((system) => fromModel(mm, "bore", system));

export function tubeTable(filled: FilledLine, units: UnitSystem): Table {
  return {
    kind: "table",
    name: "tubes",
    caption: `Tubes and pipes to buy, with ${Math.round(100 * filled.plan.line.slack)} % of slack on each piece`,
    columns: [
      { heading: "what" },
      ...boreColumns(units),
      { heading: "pieces" },
      ...bothSystems(units).map((system) => ({ heading: `in all (${unitOf("distance", system)})`, digits: 1 })),
    ],
    rows: partsOf(filled).tubes.map(({ kind, bore, pieces, length }) => [
      tubeNames[kind],
      ...bores(bore, units),
      String(pieces),
      ...bothSystems(units).map((system) => fromModel(length, "distance", system)),
    ]),
  };
}

export function cutTable(filled: FilledLine, units: UnitSystem): Table {
  return {
    kind: "table",
    name: "cuts",
    caption: "How to cut them: pieces alike, the longest of a kind first, each with its slack",
    columns: [
      { heading: "what" },
      { heading: "pieces" },
      ...bothSystems(units).map((system) => ({ heading: `length of each (${unitOf("length", system)})`, digits: 1 })),
    ],
    rows: partsOf(filled).cuts.map(({ kind, length, count }) => [
      tubeNames[kind],
      String(count),
      ...bothSystems(units).map((system) => fromModel(length, "length", system)),
    ]),
  };
}

export function fittingTable(filled: FilledLine, units: UnitSystem): Table {
  return {
    kind: "table",
    name: "fittings",
    caption: "Fittings",
    columns: [{ heading: "what" }, { heading: "how many" }, { heading: "which" }],
    rows: partsOf(filled).fittings.map(({ name, count }) => [name, String(count), which(name, filled, units)]),
  };
}

function which(name: Fitting["name"], { plan: { line } }: FilledLine, units: UnitSystem): string {
  const bore = (mm: number) => formatBoth(mm, "bore", units);
  const between = (a: number, b: number) => (a === b ? bore(a) : `${bore(a)} to ${bore(b)}`);
  switch (name) {
    case "strainer":
      return "fine mesh, at the tank’s outlet, where you can reach it to clean it";
    case "valve":
      return `${line.valve}, at the tank, for the main’s ${bore(line.mainBore)}`;
    case "elbow":
    case "tee":
      return `where main, riser, cross pipes and rows meet: ${between(line.mainBore, line.rowBore)}`;
    case "end stop":
      return `at the end of each row, to open for flushing: ${bore(line.rowBore)}`;
    case "tube connector":
      return `from a row’s pipe of ${bore(line.rowBore)} into a tube of ${bore(line.tubeBore)}`;
    case "emitter":
      return `${format(present(line.emitter, "emitter").litresPerHourAtOneMetre, "emitter flow", units)} under a metre of water`;
    case "float":
      return "a float valve in each pot, made for little pressure";
    case "seal for a tube through a wall":
      return `for the tubes between pots, ${bore(present(line.joints, "tube between pots").bore)}`;
  }
}
