/**
 * Every texture class, a dry and a moist start, a held and a falling level, a cylinder, a tapered pot and a jar, measured
 * against `reference`. The settings were chosen while looking at these cases, so that other soils and pots may be off by
 * somewhat more.
 */
import { cross } from "d3-array";
import type { Filling, Problem } from "../../model/flow/problem.ts";
import type { PotShape } from "../../model/pot/pot.ts";
import { TEXTURE_CLASSES, type TextureClass } from "../../model/soil/textureTriangle.ts";
import { cylinder, jar, tapered } from "./pots.ts";
import { classMean, cylinderProblem } from "./problems.ts";

export interface SweepCase {
  name: string;
  problem: Omit<Problem, "accuracy">;
}

const POTS: readonly PotShape[] = [cylinder, tapered, jar];
const STARTS = { dry: -15000, moist: -1000 };
const FILLINGS: Record<string, Filling> = {
  "kept full": { kind: "held", levelDepth: 0 },
  "refilled on day 7": { kind: "refilled", atDays: [0, 7] },
};

type Start = keyof typeof STARTS;

function sweepCase(soil: TextureClass, start: Start, filling: string, pot: PotShape): SweepCase {
  const { accuracy: _, ...problem } = cylinderProblem({
    soil: classMean(soil),
    pot,
    startHead: STARTS[start],
    filling: FILLINGS[filling]!,
  });
  return { name: `${soil}, ${start}, ${pot.shape}, ${filling}`, problem };
}

/** Two cases for every class: each start, filling and pot comes up with one another. */
export function sweepCases(): SweepCase[] {
  const pot = (k: number) => POTS[k % POTS.length]!;
  const [full, falling] = Object.keys(FILLINGS) as [string, string];
  return TEXTURE_CLASSES.flatMap((soil, k) => {
    const isTurned = Math.floor(k / POTS.length) % 2 === 1;
    return [
      sweepCase(soil, isTurned ? "moist" : "dry", full, pot(k)),
      sweepCase(soil, isTurned ? "dry" : "moist", falling, pot(k + 1)),
    ];
  });
}

/** Every class with every start, filling and pot. */
export function allCases(): SweepCase[] {
  const starts = Object.keys(STARTS) as Start[];
  const kinds = cross(cross(starts, Object.keys(FILLINGS)), POTS);
  return cross(TEXTURE_CLASSES, kinds).map(([soil, [[start, filling], pot]]) => sweepCase(soil, start, filling, pot));
}
