/** Tubes low in the walls through which the pots of a row settle to one level. */

import { pairs } from "d3-array";
import { distanceBetween, type Place } from "../../bed/outline.ts";
import { entry } from "../../input/lists.ts";
import type { Joint } from "../../line/fillRates.ts";
import { LOSS, PLASTIC_ROUGHNESS } from "../../line/fittings.ts";
import { wallRadiusAt } from "../../pot/potOutline.ts";
import type { FlowingBed } from "../../problems/linedBed.ts";
import { CM_PER_M, MM_PER_M } from "../../units/factors.ts";

/** Two pots that stand next to each other in a row, and the tube between them: through both walls, cm. */
export interface PotJoint {
  a: number;
  b: number;
  length: number;
}

/**
 * The tubes between neighbours in `rows` of pots (by index); places and lengths in cm. None where the plan has none.
 */
export function potJoints({ line, pot }: FlowingBed, pots: readonly Place[], rows: readonly number[][]): PotJoint[] {
  const { joints } = line;
  if (!joints) return [];
  const walls = 2 * (wallRadiusAt(pot, joints.depth) - pot.wallThickness);
  return rows
    .flatMap((row) => pairs(row))
    .map(([a, b]) => ({ a, b, length: distanceBetween(entry(pots, a), entry(pots, b)) - walls }));
}

/** The same as the line's room has them, in m. */
export function jointsOf(plan: FlowingBed, pots: readonly Place[], rows: readonly number[][]): Joint[] {
  const { bore, depth } = plan.line.joints ?? { bore: 0, depth: 0 };
  return potJoints(plan, pots, rows).map(({ a, b, length }) => ({
    a,
    b,
    height: -depth / CM_PER_M,
    pipe: {
      length: length / CM_PER_M,
      innerDiameter: bore / MM_PER_M,
      roughness: PLASTIC_ROUGHNESS,
      minorLoss: LOSS.entrance + LOSS.exit,
    },
  }));
}
