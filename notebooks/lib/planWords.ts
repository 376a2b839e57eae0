import type { Plan } from "../../model/index.ts";

/** "loam"; "soil" where a person gave parameters of their own. */
export const soilName = ({ soil }: Plan): string => soil.className ?? "soil";

export const cropName = ({ crop }: Plan): string => crop.name || "your crop";

export function dayWords(day: number): string {
  if (day < 1) return counted(Math.round(day * 24), "hour");
  return counted(Number(day.toFixed(2)), "day");
}

const counted = (count: number, unit: string) => `${count} ${unit}${count === 1 ? "" : "s"}`;
