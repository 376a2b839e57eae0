import type { PotShape } from "../../pot/pot.ts";
import type { CheckedPlan } from "./planSchema.ts";

/** The pot of a plan in the units that it is given in: a person's, or cm and days. */
export function toPot(pot: CheckedPlan["pot"]): PotShape {
  const rimDepth = -pot.rimAboveSoil;
  const common = {
    wallThickness: pot.wallThickness,
    wallConductivity: pot.wallConductivity,
    rimDepth,
    outerDepth: rimDepth + heightOf(pot),
    plugLeakLitres: pot.plugLeak,
  };
  switch (pot.shape) {
    case "cylinder":
      return { shape: "cylinder", outerRadius: pot.diameter / 2, ...common };
    case "tapered":
      return { shape: "tapered", rimRadius: pot.rimDiameter / 2, baseRadius: pot.baseDiameter / 2, ...common };
    case "jar":
      return {
        shape: "jar",
        neckRadius: pot.neckDiameter / 2,
        bellyRadius: pot.bellyDiameter / 2,
        bellyDepth: rimDepth + pot.bellyBelowRim,
        baseRadius: pot.baseDiameter / 2,
        ...common,
      };
    case "profile":
      return {
        shape: "profile",
        points: pot.points.map(({ diameter, belowRim }) => ({ r: diameter / 2, d: rimDepth + belowRim })),
        ...common,
      };
  }
}

/** Points of a profile go from the rim down. */
const heightOf = (pot: CheckedPlan["pot"]): number =>
  pot.shape === "profile" ? Math.max(...pot.points.map(({ belowRim }) => belowRim)) : pot.height;
