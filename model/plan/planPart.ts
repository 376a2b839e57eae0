/** Parts picked from a resolved plan: what an answer rests on, and no more, so that it stands while all else changes. */
import type { Plan } from "./plan.ts";
import type { BedPlan } from "./planBed.ts";
import type { Weather } from "./planLiving.ts";
import type { PartName } from "./typed/partNames.ts";

type Below<Group extends string, N extends string> = N extends `${Group}.${infer Key}` ? Key : never;

type Within<Group extends string, T, N extends string> = [Below<Group, N>] extends [never]
  ? unknown
  : { [_ in Group]: Pick<T, Below<Group, N> & keyof T> };

/** A plan without all that is not named. */
export type PlanPart<N extends PartName> = Pick<Plan, N & keyof Plan> &
  Within<"bed", BedPlan, N> &
  Within<"weather", Weather, N>;

/** The named parts of a plan and nothing else; a name such as "bed.spacing" picks from a group. */
export function planPart<N extends PartName>(plan: PlanPart<N>, names: readonly N[]): PlanPart<N> {
  const part: Record<string, unknown> = {};
  for (const name of names) {
    const [group = name, key] = name.split(".");
    const value = plan[group as keyof typeof plan] as Record<string, unknown>;
    part[group] = key === undefined ? value : { ...(part[group] as object), [key]: value[key] };
  }
  return part as PlanPart<N>;
}

/** What spacings are tried on: one pot in its ground, with its plants and its weather, whatever the ground's area. */
export const UNSPACED_GROUND = [
  ...(["soil", "bedMix", "startHead", "pot", "lid", "filling", "days", "crop", "rootDepth"] as const),
  ...(["sowing", "sowingDay", "plantingDay", "month", "plantsFromWall", "plantStage"] as const),
  ...(["mulchCover", "handWatering", "bed.grid"] as const),
  ...(["weather.isExample", "weather.latitude", "weather.altitudeMetres", "weather.months"] as const),
] as const satisfies readonly PartName[];

export type UnspacedGround = PlanPart<(typeof UNSPACED_GROUND)[number]>;

/** All that the flow of water about one pot rests on. */
export const POTTED_GROUND = [...UNSPACED_GROUND, "bed.spacing", "areaPerPot"] as const satisfies readonly PartName[];

export type PottedGround = PlanPart<(typeof POTTED_GROUND)[number]>;

/** What the flow of water about one pot rests on, picked from a plan. */
export const pottedGround = (plan: PottedGround): PottedGround => planPart(plan, POTTED_GROUND);
