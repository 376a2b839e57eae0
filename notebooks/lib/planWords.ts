import type { Plan } from "../../model/index.ts";

/** "loam"; "soil" where a person gave parameters of their own. */
export const soilName = ({ soil }: Plan): string => soil.className ?? "soil";

export const cropName = ({ crop }: Plan): string => crop.name || "your crop";

/** "sow tomato"; of a starter it is the middle of the root ball that is placed. */
export const actWords = (plan: Plan): string =>
  plan.sowing.kind === "seed" ? `sow ${cropName(plan)}` : `set the middle of each ${cropName(plan)} root ball`;

export function dayWords(day: number): string {
  if (day < 1) return counted(Math.round(day * 24), "hour");
  return counted(Number(day.toFixed(2)), "day");
}

const counted = (count: number, unit: string) => `${count} ${unit}${count === 1 ? "" : "s"}`;
