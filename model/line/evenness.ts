/** How evenly outlets give, from their flows or from the water that each gave. */
import { mean } from "d3-array";
import { present } from "../input/lists.ts";

/**
 * Christiansen's uniformity coefficient, %: CU = 100 (1 − Σ|q − q̄| / (n q̄)); 100 where all give alike, below 0 where
 * few give all. Not a number without water. Christiansen (1942), Calif. Agric. Exp. Stn. Bull. 670, from memory.
 */
export function uniformityCoefficient(given: ArrayLike<number>): number {
  const average = meanOf(Array.from(given));
  return 100 * (1 - meanOf(Array.from(given, (value) => Math.abs(value - average))) / average);
}

const meanOf = (values: number[]) => present(mean(values), "outlet");
