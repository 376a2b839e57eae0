/** The same bed with one thing changed, and what that does to the tank. */
import type { BedChange, ChangedBed } from "../../../model/public/advice.ts";
import { first } from "../../../model/public/plan.ts";
import { formatBoth, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import type { Table } from "../../notebook/notebook.ts";
import { tableOf } from "../../notebook/tables.ts";

function changeWords({ name, plan, spacing }: BedChange, asItIs: BedChange["plan"], units: UnitSystem): string {
  switch (name) {
    case "full mulch":
      return "all of the ground under mulch";
    case "fewer pots":
      return `fewer pots, ${formatBoth(spacing ?? plan.bed.spacing, "length", units)} apart`;
    case "other crop":
      return `${plan.crop.name} in place of ${asItIs.crop.name || "your crop"}`;
    case "later filling":
      return `filled every ${plan.filling.kind === "every" ? plan.filling.days : 1} days`;
    default:
      return name;
  }
}

export function changesTable(beds: readonly ChangedBed[], units: UnitSystem): Table {
  const volume = unitOf("volume", units);
  const { wantedShare, change: asItIs } = first(beds);
  const size = (tank: number) => String(Number(fromModel(tank, "volume", units).toPrecision(2)));
  return tableOf("changes", "The same bed, roof and tank with one thing changed", beds, [
    ["bed", ({ change }) => changeWords(change, asItIs.plan, units)],
    ["pots", ({ pots }) => pots, 0],
    [`full pots give a year (${volume})`, ({ given }) => fromModel(given, "volume", units), 0],
    ["years carried (%)", ({ carried }) => 100 * carried, 0],
    [
      `tank for ${Math.round(100 * wantedShare)} of 100 years (${volume})`,
      ({ tank }) => (tank === null ? "none does" : size(tank)),
    ],
    ["least thirst met in a month (%)", ({ leastMet }) => Math.round(100 * leastMet), 0],
  ]);
}
