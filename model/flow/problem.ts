import type { PotGrid } from "../bed/potGrid.ts";
import type { PotShape } from "../pot/pot.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";

/** Grid and tolerances: while a slider moves, what an answer is based on, and what checks the other two. */
export type Accuracy = "live" | "standard" | "reference";

/** How the pot is kept supplied. A refill fills to the rim. */
export type Filling = { kind: "held"; levelDepth: number } | { kind: "refilled"; atDays: number[] };

/** A limit of wetness: `radius` is read along a line at depth `depth`, `wettedDepth` along the axis. */
export interface Edge {
  head: number;
  depth: number;
}

/** Everything one run needs, as plain data with nothing left open: cm, day. It crosses to a worker as it is. */
export interface Problem {
  soil: VanGenuchtenParameters;
  /** Another soil on top of `soil`, down to a depth; null where the ground is one soil. */
  topLayer: { soil: VanGenuchtenParameters; depth: number } | null;
  pot: PotShape;
  filling: Filling;
  /** Pressure head everywhere at the start, cm. */
  startHead: number;
  region: { radius: number; depth: number };
  /** Times at which the whole field is kept, days, increasing. The run ends at the last. */
  days: number[];
  /** Limits of wetness whose radius and depth are followed at every time step, one at least. The first one fills `rows`. */
  edges: Edge[];
  accuracy: Accuracy;
  /** By `fromDay`, the first one on day 0; empty where lid and mulch close the surface and nothing grows. */
  weather: Spell[];
  /** null where nothing grows. */
  roots: Roots | null;
  /** Other pots all about, solved in three dimensions; null: the region is a circle, closed at its side. */
  neighbours: Neighbours | null;
}

/**
 * Pots like this one on an even grid, `spacing` cm from one to the next: each has a square or a hexagon of ground to itself. The
 * region's radius is then that of the circle of the same area.
 */
export interface Neighbours {
  grid: PotGrid;
  spacing: number;
}

/** Even ground, closed on top, where nothing grows, and a pot by itself. */
export const BARE_GROUND: Pick<Problem, "topLayer" | "weather" | "roots" | "neighbours"> = {
  topLayer: null,
  weather: [],
  roots: null,
  neighbours: null,
};

/** Nothing falls, nothing is asked for. */
export const CALM: Spell = { fromDay: 0, rain: 0, evaporation: 0, transpiration: 0, potRain: 0, potEvaporation: 0 };

/** What sky, watering can and air do from a day until the next spell begins; cm/day. */
export interface Spell {
  fromDay: number;
  /** Rain and watering by hand on the soil about the pot; what it cannot take up runs off. */
  rain: number;
  /** What bare wet soil would lose to the air, mulch and shade allowed for; dry soil gives less. */
  evaporation: number;
  /** What plants with all the water they want would take, over all the ground of the pot. */
  transpiration: number;
  /**
   * What a pot without a lid catches over its opening, and loses from its water surface; 0 under a lid. Rain into an empty
   * pot is left out.
   */
  potRain: number;
  potEvaporation: number;
}

/**
 * Roots of plants that stand in a ring about the pot. Their density falls evenly to 0 with depth, and to both sides of the
 * ring; what they take up by soil suction has the shape of Feddes et al. (1978), and of the rest of their share they make
 * good what `adaptability` allows (Jarvis 1989): see `rootUptake`.
 */
export interface Roots {
  /** Distance of the plants from the pot's axis, cm. */
  plantRadius: number;
  /** Depth and spread (to either side of the plants), cm, by day; straight between days, and even before and after. */
  growth: { day: number; depth: number; spread: number }[];
  limits: UptakeLimits;
  /** Largest share of the roots that may find no water before the plants take less than they want, from 0 to below 1. */
  adaptability: number;
}

/** Pressure heads of the uptake's shape, cm: none above h1, full from h2 to h3, none below h4. */
export interface UptakeLimits {
  h1: number;
  h2: number;
  /** h3 at a demand of 5 mm/day and more, and of 1 mm/day and less. */
  h3: { highDemand: number; lowDemand: number };
  h4: number;
}
