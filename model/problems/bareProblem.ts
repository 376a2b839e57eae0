import { range, union } from "d3-array";
import { heldLevel } from "../flow/potSupply.ts";
import { type Accuracy, BARE_GROUND, type Edge, type Filling, type Problem } from "../flow/problem.ts";
import { last } from "../input/lists.ts";
import type { PlanPart, UnspacedGround } from "../plan/planPart.ts";
import { outlineOf } from "../pot/potOutline.ts";
import { type VanGenuchtenParameters, vanGenuchten } from "../soil/vanGenuchten.ts";

/** Rise of water content that a trowel shows: our own choice. */
export const VISIBLE_RISE = 0.01;

/** Days whose answers are told side by side. */
export const TOLD_DAYS = [1, 3, 7, 14];

export type EdgeName = "easyWater" | "sprouting" | "soaked" | "front";

export interface ProblemOptions {
  /** Another soil under the same plan; a bed mix stays on top of it. */
  soil?: VanGenuchtenParameters;
  accuracy?: Accuracy;
  /** Days at which the whole field is kept, increasing; the last one ends the run. */
  days?: number[];
  edges?: Edge[];
}

/** The run that answers a plan: a lone pot. Unless given, its edges are those of `planEdges`, in that order. */
export function planToProblem(plan: UnspacedGround, options: ProblemOptions = {}): Problem {
  const { soil = plan.soil.parameters, accuracy = "standard", days = toldDays(plan) } = options;
  const { edges = Object.values(planEdges(plan, soil)) } = options;
  const lastDay = last(days);
  return {
    soil,
    pot: plan.pot,
    filling: fillingOf(plan, lastDay),
    startHead: plan.startHead,
    region: regionOf(plan, lastDay),
    days,
    edges,
    accuracy,
    ...BARE_GROUND,
    topLayer: plan.bedMix && { soil: plan.bedMix.parameters, depth: plan.bedMix.depth },
  };
}

/**
 * The limits of wetness that the answers are read from. Starters need easy water at the depth of their root ball where
 * seeds need their sprouting suction at sowing depth; both must lie outside the soaked edge there. The front is where
 * moisture has visibly risen above where it began, in the soil of that depth.
 */
export function planEdges(
  plan: UnspacedGround,
  soil: VanGenuchtenParameters = plan.soil.parameters,
): Record<EdgeName, Edge> {
  const { crop, sowing, rootDepth, startHead } = plan;
  const depth = plantedDepth(plan);
  const { theta, hAtTheta } = vanGenuchten(soilAt(plan, depth, soil));
  return {
    easyWater: { head: crop.easyWaterHead, depth: rootDepth },
    sprouting: { head: sowing.kind === "seed" ? sowing.sproutingHead : crop.easyWaterHead, depth },
    soaked: { head: crop.tooWetHead, depth },
    front: { head: hAtTheta(theta(startHead) + VISIBLE_RISE), depth },
  };
}

/** The soil at a depth in cm: the bed mix down to its own depth, the bed's own soil, or `below`, from there on. */
export function soilAt(
  { bedMix, soil }: UnspacedGround,
  depth: number,
  below = soil.parameters,
): VanGenuchtenParameters {
  return bedMix && depth < bedMix.depth ? bedMix.parameters : below;
}

/** Where each of the plan's edges stands in `Problem.edges` and `History.edges`. */
export function edgeIndex(plan: UnspacedGround, name: EdgeName): number {
  return Object.keys(planEdges(plan)).indexOf(name);
}

/** Depth of the seed, or of the starter's root ball, cm. */
export function plantedDepth({ sowing }: PlanPart<"sowing">): number {
  return sowing.kind === "seed" ? sowing.sowingDepth : sowing.rootBallDepth;
}

/**
 * The end of the look ahead and of the time that planting needs: from the chosen day, or from any day of the look ahead,
 * until seeds have come up or starters have stood a week without watering by hand.
 */
export function lastDayOf(plan: UnspacedGround): number {
  return Math.max(plan.days, (plan.sowingDay ?? plan.days) + establishmentDays(plan));
}

const DAYS_WITHOUT_HAND_WATERING = 7;

/** Days from planting for which the sowing band must hold. */
export function establishmentDays({ sowing }: PlanPart<"sowing">): number {
  return sowing.kind === "seed" ? sowing.emergenceDays : sowing.handWateringDays + DAYS_WITHOUT_HAND_WATERING;
}

function toldDays(plan: UnspacedGround): number[] {
  const lastDay = lastDayOf(plan);
  return [
    ...union(
      TOLD_DAYS.filter((day) => day < lastDay),
      [plan.days, lastDay],
    ),
  ].sort((s, t) => s - t);
}

/** Full at day 0 in every case. */
function fillingOf({ filling, pot }: UnspacedGround, lastDay: number): Filling {
  switch (filling.kind) {
    case "float":
      return { kind: "held", levelDepth: heldLevel(pot) };
    case "every":
      return { kind: "refilled", atDays: range(Math.ceil(lastDay / filling.days)).map((i) => i * filling.days) };
    case "once":
      return { kind: "refilled", atDays: [0] };
  }
}

/**
 * For a lone pot the edge lies too far away to be felt: 100 cm from the axis or five times the pot's radius, and 130 cm
 * below its base, both growing with the square root of the days beyond 14, as wet soil does (our own rule; in 14 days
 * water spreads 40 to 65 cm from a pot kept full). Water through the bottom is counted as lost below the roots.
 */
function regionOf({ pot }: UnspacedGround, lastDay: number): Problem["region"] {
  const stretch = Math.max(1, Math.sqrt(lastDay / 14));
  const widest = Math.max(...outlineOf(pot).map(({ r }) => r));
  return { radius: Math.max(100, 5 * widest) * stretch, depth: Math.max(0, pot.outerDepth) + 130 * stretch };
}
