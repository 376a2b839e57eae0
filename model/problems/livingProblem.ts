import { range } from "d3-array";
import type { Accuracy, Filling, Problem, Roots, Spell } from "../flow/problem.ts";
import { last } from "../input/lists.ts";
import type { Plan } from "../plan/plan.ts";
import type { PottedGround, UnspacedGround } from "../plan/planPart.ts";
import { ageOf, type Grown } from "../plants/growthStages.ts";
import { type RootGrowth, rootGrowth } from "../plants/rootGrowth.ts";
import { wallRadiusAt } from "../pot/potOutline.ts";
import { HOURS_PER_DAY, MM_PER_CM } from "../units/factors.ts";
import { planToProblem, plantedDepth } from "./bareProblem.ts";
import { demandOf, monthETo } from "./demand.ts";

/** Chosen for one run of a living bed. */
export interface LivingOptions {
  /** How far the plants are at the start; null where nothing grows. */
  stage: Grown | null;
  /** Days at which the whole field is kept, increasing; the last one ends the run. */
  days: number[];
  /** Other than the plan's. */
  filling?: Filling;
  startHead?: number;
  /** Roots that crowd about the pot's wall in place of spreading through the ground. */
  areGathered?: boolean;
  /** Reference evapotranspiration, mm/day, in place of the month's. */
  ETo?: number;
  accuracy?: Accuracy;
  /** The square or hexagon of ground that the grid gives a pot, in place of the circle of its area. */
  inThreeDimensions?: boolean;
}

/**
 * The run of one pot and the ground it serves, in the weather of the plan's month: the circle of `areaPerPot`, closed at
 * its side as by neighbours alike, or its own square or hexagon in three dimensions.
 */
export function livingProblem(plan: PottedGround, options: LivingOptions): Problem {
  const { stage, days, filling, startHead = plan.startHead, accuracy = "standard" } = options;
  const bare = planToProblem(plan, { days, accuracy });
  const length = last(days);
  return {
    ...bare,
    startHead,
    filling: filling ?? bare.filling,
    region: { radius: groundRadius(plan), depth: bare.region.depth },
    weather: weatherOf(plan, options, length),
    neighbours: options.inThreeDimensions ? { grid: plan.bed.grid, spacing: plan.bed.spacing } : null,
    roots: stage === null ? null : options.areGathered ? gatheredRoots(plan) : spreadRoots(plan, stage, length),
  };
}

/** Radius of the circle that has the area each pot serves, cm. */
export const groundRadius = ({ areaPerPot }: Pick<Plan, "areaPerPot">): number => Math.sqrt(areaPerPot / Math.PI);

/** A rain, and a watering by hand, last so long, days: our own choice. */
const RAIN_LASTS = 3 / HOURS_PER_DAY;
const WATERING_LASTS = 1 / HOURS_PER_DAY;
/** Plants grow too slowly for more than one demand in so many days. */
const DAYS_OF_ONE_DEMAND = 7;
const DAYS_OF_A_MONTH = 30.4;

interface Shower {
  day: number;
  lasts: number;
  mm: number;
  /** Rain falls into an open pot as well. */
  isRain: boolean;
}

function weatherOf(plan: PottedGround, { stage, ETo = monthETo(plan) }: LivingOptions, length: number): Spell[] {
  const showers = [...rains(plan, length), ...waterings(plan, length)];
  const changes = showers.flatMap(({ day, lasts }) => [day, day + lasts]);
  const starts = [...new Set([...range(0, length, DAYS_OF_ONE_DEMAND), ...changes])].filter((day) => day < length);
  return starts
    .sort((s, t) => s - t)
    .map((fromDay) => {
      const middle = (Math.floor(fromDay / DAYS_OF_ONE_DEMAND) + 0.5) * DAYS_OF_ONE_DEMAND;
      const demand = demandOf(plan, stage, middle, ETo);
      const falling = showers.filter(({ day, lasts }) => day <= fromDay && fromDay < day + lasts);
      const rate = (some: Shower[]) => some.reduce((sum, { mm, lasts }) => sum + mm / lasts / MM_PER_CM, 0);
      return {
        fromDay,
        rain: rate(falling),
        evaporation: demand.evaporation / MM_PER_CM,
        transpiration: demand.transpiration / MM_PER_CM,
        potRain: plan.lid ? 0 : rate(falling.filter(({ isRain }) => isRain)),
        potEvaporation: demand.openWater / MM_PER_CM,
      };
    });
}

/** The month's rain in equal parts, evenly spread over it: our own choice. */
function rains({ weather, month }: PottedGround, length: number): Shower[] {
  const { rainMm, rainDays } = weather.months[month];
  if (rainDays === 0) return [];
  const apart = DAYS_OF_A_MONTH / rainDays;
  return range(apart / 2, length, apart).map((day) => ({
    day,
    lasts: RAIN_LASTS,
    mm: rainMm / rainDays,
    isRain: true,
  }));
}

function waterings({ handWatering }: PottedGround, length: number): Shower[] {
  if (!handWatering) return [];
  const { days, mm } = handWatering;
  return range(0, length, days).map((day) => ({ day, lasts: WATERING_LASTS, mm, isRain: false }));
}

/** Distance from the stem that a seedling's roots have gone at first, cm: our own choice. */
const SEEDLING_SPREAD = 5;
/**
 * Largest share of the roots that may lie dry before plants take less than they want. Jarvis (1989) names such a limit and
 * gives it as about a half (from memory, weak); roots of watered beds gather where the water is.
 */
const ADAPTABILITY = 0.5;

/** Full-grown roots reach as far to the side as down: our own choice. */
export function rootGrowthOf(plan: UnspacedGround): RootGrowth {
  const { crop, sowing } = plan;
  const ball = sowing.kind === "starter" ? sowing.rootBallRadius : SEEDLING_SPREAD;
  const start = { depth: 2 * plantedDepth(plan), spread: ball };
  const full = { depth: crop.deepestRoots, spread: crop.deepestRoots };
  return { start, full, stageDays: crop.stageDays };
}

function spreadRoots(plan: PottedGround, stage: Grown, days: number): Roots {
  const { crop } = plan;
  const age = ageOf(crop.stageDays, stage);
  return {
    plantRadius: plantRadius(plan),
    growth: rootGrowth(rootGrowthOf(plan), { age, days }),
    limits: crop.uptake,
    adaptability: ADAPTABILITY,
  };
}

/** How far from the wall and below the base gathered roots crowd, cm: our own choice. */
const MAT = 10;

function gatheredRoots({ pot, crop }: PottedGround): Roots {
  const growth = [{ day: 0, depth: Math.max(pot.outerDepth, 0) + MAT, spread: MAT }];
  return { plantRadius: wallRadiusAt(pot, 0), growth, limits: crop.uptake, adaptability: ADAPTABILITY };
}

/** Distance of the plants from the pot's axis, cm: no farther than the ground that the pot serves. */
export const plantRadius = (plan: Pick<Plan, "pot" | "plantsFromWall" | "areaPerPot">): number =>
  Math.min(wallRadiusAt(plan.pot, 0) + plan.plantsFromWall, groundRadius(plan));
