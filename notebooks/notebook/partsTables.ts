/** What to buy and how to cut it, in both unit systems. */
import { type FilledLine, type Fitting, lineParts, type TubeKind } from "../../model/public/advice.ts";
import { present } from "../../model/public/plan.ts";
import {
  bothSystems,
  format,
  formatBoth,
  fromModel,
  type Quantity,
  type UnitSystem,
  unitOf,
} from "../../model/public/units.ts";
import type { Table } from "./notebook.ts";
import { type Column, tableOf } from "./tables.ts";

const tubeNames: Record<TubeKind, string> = {
  main: "main",
  riser: "riser, upright from the main to the rows",
  "cross pipe": "cross pipe between rows",
  "row pipe": "pipe along a row",
  tube: "small tube to a pot",
  "tube between pots": "tube between two pots of a row",
};

type Parts = ReturnType<typeof lineParts>;
type Tube = Parts["tubes"][number];
type Cut = Parts["cuts"][number];

const partsOf = ({ plan, pots }: FilledLine) => lineParts(plan, pots);

/** A column for each unit system. */
const inBoth = <T>(
  heading: string,
  quantity: Quantity,
  value: (datum: T) => number,
  units: UnitSystem,
  digits: Record<UnitSystem, number> = { metric: 1, us: 1 },
): Column<T>[] =>
  bothSystems(units).map((system) => [
    `${heading} (${unitOf(quantity, system)})`,
    (datum) => fromModel(value(datum), quantity, system),
    digits[system],
  ]);

export function tubeTable(filled: FilledLine, units: UnitSystem): Table {
  const caption = `Tubes and pipes to buy, with ${Math.round(100 * filled.plan.line.slack)} % of slack on each piece`;
  return tableOf("tubes", caption, partsOf(filled).tubes, [
    ["what", ({ kind }) => tubeNames[kind]],
    ...inBoth<Tube>("bore", "bore", ({ bore }) => bore, units, { metric: 1, us: 2 }),
    ["pieces", ({ pieces }) => String(pieces)],
    ...inBoth<Tube>("in all", "distance", ({ length }) => length, units),
  ]);
}

export function cutTable(filled: FilledLine, units: UnitSystem): Table {
  const caption = "How to cut them: pieces alike, the longest of a kind first, each with its slack";
  return tableOf("cuts", caption, partsOf(filled).cuts, [
    ["what", ({ kind }) => tubeNames[kind]],
    ["pieces", ({ count }) => String(count)],
    ...inBoth<Cut>("length of each", "length", ({ length }) => length, units),
  ]);
}

export function fittingTable(filled: FilledLine, units: UnitSystem): Table {
  return tableOf("fittings", "Fittings", partsOf(filled).fittings, [
    ["what", ({ name }) => name],
    ["how many", ({ count }) => String(count)],
    ["which", ({ name }) => which(name, filled, units)],
  ]);
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
