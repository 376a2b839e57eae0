/** Days that each growth stage of FAO-56 lasts, from sowing or planting on; each above 0. */
export interface StageDays {
  initial: number;
  development: number;
  mid: number;
  late: number;
}

/** Ages that a person can name without counting days. */
export const NAMED_STAGES = ["young", "half grown", "full grown", "ripening"] as const;
export type NamedStage = (typeof NAMED_STAGES)[number];

/** Age in days of plants at a named stage: the end of the initial stage, the middle of development, its end, the last day. */
export function stageAge({ initial, development, mid, late }: StageDays, stage: NamedStage): number {
  switch (stage) {
    case "young":
      return initial;
    case "half grown":
      return initial + development / 2;
    case "full grown":
      return initial + development;
    case "ripening":
      return initial + development + mid + late;
  }
}

/** How far plants are: at a named stage, or so many days after sowing or planting. */
export type Grown = NamedStage | number;

/** Age in days. */
export const ageOf = (stageDays: StageDays, grown: Grown): number =>
  typeof grown === "number" ? grown : stageAge(stageDays, grown);

/** From sowing or planting to the last day. */
export const seasonDays = (stageDays: StageDays): number => stageAge(stageDays, "ripening");

/**
 * A coefficient on a day of a crop's life, from its values in the initial stage, in mid-season and at the end: level in
 * the initial stage and mid-season, a straight line in between and after (FAO-56, eq. 66 and Fig. 34, figure's number
 * from memory). Past the last day it stays as at the end.
 */
export function byAge(
  values: { initial: number; mid: number; end: number },
  stageDays: StageDays,
  age: number,
): number {
  const { initial, development, mid, late } = stageDays;
  const grown = share((age - initial) / development);
  const ripened = share((age - initial - development - mid) / late);
  return values.initial + grown * (values.mid - values.initial) + ripened * (values.end - values.mid);
}

function share(x: number): number {
  return Math.max(0, Math.min(1, x));
}
