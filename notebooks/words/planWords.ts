import type { PlanPart } from "../../model/public/plan.ts";
import { format, HOURS_PER_DAY } from "../../model/public/units.ts";

/** "loam"; "soil" where a person gave parameters of their own; under a mix "sandy loam (30 cm) over clay". */
export function soilName({ soil, bedMix, units }: PlanPart<"soil" | "bedMix" | "units">): string {
  if (bedMix === null) return soil.className ?? "soil";
  return `${bedMix.className ?? "mix"} (${format(bedMix.depth, "length", units)}) over ${soil.className ?? "native soil"}`;
}

export const cropName = ({ crop }: PlanPart<"crop">): string => crop.name || "your crop";

/** "sow tomato"; of a starter it is the middle of the root ball that is placed. */
export const actWords = (plan: PlanPart<"crop" | "sowing">): string =>
  plan.sowing.kind === "seed" ? `sow ${cropName(plan)}` : `set the middle of each ${cropName(plan)} root ball`;

export function dayWords(day: number): string {
  if (day < 1) return counted(Math.round(day * HOURS_PER_DAY), "hour");
  return counted(Number(day.toFixed(2)), "day");
}

const counted = (count: number, unit: string) => `${count} ${unit}${count === 1 ? "" : "s"}`;
