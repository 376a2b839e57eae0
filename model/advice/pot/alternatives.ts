import type { Plan } from "../../plan/plan.ts";
import { atSpacing, widestRadius } from "../../plan/planBed.ts";
import type { PotShape } from "../../pot/pot.ts";
import { groundRadius } from "../../problems/livingProblem.ts";

/** Something a gardener can change about a bed, and the plan with it. */
export interface Alternative {
  name: "bigger pot" | "second pot" | "full mulch" | "lid";
  plan: Plan;
}

/** A pot of twice the size has so many times the lengths. */
const TWICE = Math.cbrt(2);
/** A pot must leave its ground at least so much room to its side, as a share of the pot's own radius. */
const LEAST_ROOM = 1.2;

/**
 * Changes of the pot or its ground that would change how long a filling lasts; only what can still be done, and what
 * fits the ground.
 */
export function alternatives(plan: Plan): Alternative[] {
  const all: Alternative[] = [
    { name: "bigger pot", plan: { ...plan, pot: scaledPot(plan.pot, TWICE) } },
    { name: "second pot", plan: atSpacing(plan, plan.bed.spacing / Math.SQRT2) },
    { name: "full mulch", plan: { ...plan, mulchCover: 1 } },
    { name: "lid", plan: { ...plan, lid: true } },
  ];
  const isDone = (name: Alternative["name"]) =>
    (name === "full mulch" && plan.mulchCover === 1) || (name === "lid" && plan.lid);
  return all.filter(({ name, plan: changed }) => !isDone(name) && fitsItsGround(changed));
}

function fitsItsGround(plan: Plan): boolean {
  return groundRadius(plan) >= LEAST_ROOM * widestRadius(plan.pot);
}

/** The same shape with all outer lengths below the rim changed by a factor; wall, plug and the rim's height stay. */
export function scaledPot(pot: PotShape, factor: number): PotShape {
  const { rimDepth } = pot;
  const depth = (d: number) => rimDepth + factor * (d - rimDepth);
  const outerDepth = depth(pot.outerDepth);
  switch (pot.shape) {
    case "cylinder":
      return { ...pot, outerDepth, outerRadius: factor * pot.outerRadius };
    case "tapered":
      return { ...pot, outerDepth, rimRadius: factor * pot.rimRadius, baseRadius: factor * pot.baseRadius };
    case "jar":
      return {
        ...pot,
        outerDepth,
        neckRadius: factor * pot.neckRadius,
        bellyRadius: factor * pot.bellyRadius,
        bellyDepth: depth(pot.bellyDepth),
        baseRadius: factor * pot.baseRadius,
      };
    case "profile":
      return { ...pot, outerDepth, points: pot.points.map(({ r, d }) => ({ r: factor * r, d: depth(d) })) };
  }
}
