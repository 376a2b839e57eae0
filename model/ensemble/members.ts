import { range } from "d3-array";
import { randomUniform } from "d3-random";
import { walls } from "../../reference-data/load.ts";
import type { PlanPart } from "../plan/planPart.ts";
import type { PotShape } from "../pot/pot.ts";
import { randomStreams, type Uniform } from "../random/randomStreams.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";
import type { Member } from "./member.ts";
import { type DrawnSoil, type SoilStreams, soilDrawer } from "./soilDraws.ts";

/** What may differ from one member to the next: how soil passes water, how it holds water, wall, start, pot size. */
export const MEMBER_GROUPS = ["conductivity", "retention", "wall", "start", "pot"] as const;

export type MemberGroup = (typeof MEMBER_GROUPS)[number];

/** What the bands vary. */
export const SOIL_GROUPS: readonly MemberGroup[] = ["conductivity", "retention"];

/** What to draw. */
export interface Drawing {
  count: number;
  /** A whole number from 0 to 2³² − 1. */
  seed: number;
  /** The others stay as the plan has them. */
  varied: readonly MemberGroup[];
}

/** Every length of the pot but the wall's thickness, as a multiple of the plan's: our own choice, a size up or down. */
const POT_SCALE = { min: 0.8, max: 1.25 };

/** Suction at the start, as a multiple of the plan's: our own choice; and its limits, cm, about those of a plan. */
const START = { factor: 3, min: 10, max: 100_000 };

/** What is varied of a plan. */
type DrawnPlan = PlanPart<"soil" | "pot" | "startHead">;

/**
 * The members of a plan's ensemble. Every group is drawn from its own stream, varied or not, so that members differ only
 * in what is varied, and the first hundred of two hundred are those of one hundred. Wall, start and size are drawn
 * evenly in their logarithm: the wall's conductance over the published range (`walls.json`), whatever the plan's own.
 * A soil given by its own parameters has no published spread: it stays. Where the texture is uncertain, conductivity
 * and retention follow one drawn class.
 */
export function drawMembers(plan: DrawnPlan, { count, seed, varied }: Drawing): Member[] {
  const streams = randomStreams(seed, ["texture", ...MEMBER_GROUPS]);
  const drawSoil = soilDraws(plan, streams);
  const drawWall = logUniform(streams.wall, wallFactors(plan.pot));
  const drawSuction = logUniform(streams.start, suctions(plan));
  const drawScale = logUniform(streams.pot, scales(plan.pot));
  const isVaried = (group: MemberGroup) => varied.includes(group);
  return range(count).map((index) => {
    const [drawn, wallFactor, suction, potScale] = [drawSoil(), drawWall(), drawSuction(), drawScale()];
    const { soil, className } = soilOf(plan, drawn, isVaried);
    return {
      index,
      soil,
      className,
      wallFactor: isVaried("wall") ? wallFactor : 1,
      startHead: isVaried("start") ? -suction : plan.startHead,
      potScale: isVaried("pot") ? potScale : 1,
    };
  });
}

function soilDraws({ soil: { className, texture } }: PlanPart<"soil">, streams: SoilStreams): () => DrawnSoil | null {
  if (texture) return soilDrawer({ kind: "texture", texture, sd: texture.sd }, streams);
  return className === null ? () => null : soilDrawer({ kind: "class", name: className }, streams);
}

function soilOf({ soil }: PlanPart<"soil">, drawn: DrawnSoil | null, isVaried: (group: MemberGroup) => boolean) {
  const [passing, holding] = [isVaried("conductivity"), isVaried("retention")];
  if (drawn === null || !(passing || holding)) return { soil: soil.parameters, className: null };
  const { Ks, ...retention }: VanGenuchtenParameters = drawn.parameters;
  return {
    soil: { ...soil.parameters, ...(holding && retention), ...(passing && { Ks }) },
    className: drawn.className,
  };
}

interface Span {
  min: number;
  max: number;
}

function logUniform(uniform: Uniform, { min, max }: Span): () => number {
  const exponent = randomUniform.source(uniform)(Math.log(min), Math.log(max));
  return () => Math.exp(exponent());
}

function wallFactors({ wallConductivity, wallThickness }: PotShape): Span {
  const { min, max } = walls().ranges.conductance;
  const own = wallConductivity / wallThickness;
  return { min: min / own, max: max / own };
}

function suctions({ startHead }: PlanPart<"startHead">): Span {
  return { min: Math.max(-startHead / START.factor, START.min), max: Math.min(-startHead * START.factor, START.max) };
}

/** The wall does not shrink with the pot, so that a pot which is hardly wider than its wall shrinks less. */
function scales(pot: PotShape): Span {
  const smallest = (1.1 * pot.wallThickness) / roomForWall(pot);
  return { min: Math.min(Math.max(POT_SCALE.min, smallest), 1), max: POT_SCALE.max };
}

/** The length that the wall must be thinner than: narrowest radius, height, or depth in the soil. */
function roomForWall(pot: PotShape): number {
  return Math.min(pot.outerDepth, pot.outerDepth - pot.rimDepth, narrowestRadius(pot));
}

/** A jar or a profile may end in a point. */
function narrowestRadius(pot: PotShape): number {
  switch (pot.shape) {
    case "cylinder":
      return pot.outerRadius;
    case "tapered":
      return Math.min(pot.rimRadius, pot.baseRadius);
    case "jar":
      return pot.neckRadius;
    case "profile":
      return Math.min(...pot.points.slice(0, -1).map(({ r }) => r));
  }
}
