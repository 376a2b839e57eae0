/** What a living bed's rows and columns decide: evaporation of the first day, uptake until the third, and the spacing. */
import { cross } from "d3-array";
import type { Accuracy } from "../../model/flow/problem.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { comparedSoils } from "../../notebooks/notebook/comparedSoils.ts";
import {
  DRYING_SOILS,
  DRYING_STARTS,
  DRYING_TRUTH,
  drinkingCylinder,
  dryingCylinder,
  EARLY_ALLOWED,
  takenError,
} from "../support/living.ts";
import { plan } from "../support/livingPlan.ts";
import { foundSpacing, SPACING_ALLOWED } from "../support/spacing.ts";

/** Error and the largest allowed, as shares. */
export interface EarlyFigure {
  name: string;
  accuracy: Accuracy;
  error: number;
  allowed: number;
}

const ACCURACIES = ["live", "standard"] as const;

export const earlyFigures = (): EarlyFigure[] => [...evaporationFigures(), ...uptakeFigures(), ...spacingFigures()];

function evaporationFigures(): EarlyFigure[] {
  return cross(DRYING_SOILS, DRYING_STARTS).flatMap(([soil, startHead]) => {
    const problem = dryingCylinder(soil, startHead);
    const truth = simulateToEnd(problem, undefined, { fineness: DRYING_TRUTH });
    return ACCURACIES.map((accuracy) => ({
      name: `evaporation of day 1, ${soil}, ${startHead} cm`,
      accuracy,
      error: takenError(simulateToEnd({ ...problem, accuracy }), truth, "evaporationLitres"),
      allowed: EARLY_ALLOWED[accuracy].evaporation,
    }));
  });
}

function uptakeFigures(): EarlyFigure[] {
  const truth = simulateToEnd({ ...drinkingCylinder(), accuracy: "reference" });
  return ACCURACIES.map((accuracy) => ({
    name: "uptake until day 3, sandy loam, float",
    accuracy,
    error: takenError(simulateToEnd({ ...drinkingCylinder(), accuracy }), truth, "uptakeLitres"),
    allowed: EARLY_ALLOWED[accuracy].uptake,
  }));
}

/** Against the standard setting. */
function spacingFigures(): EarlyFigure[] {
  return comparedSoils.map((name) => {
    const bed = plan({ soil: { kind: "class", name } });
    return {
      name: `spacing, ${name}`,
      accuracy: "live",
      error: Math.abs(foundSpacing(bed, "live") / foundSpacing(bed, "standard") - 1),
      allowed: SPACING_ALLOWED,
    };
  });
}
