import { mean, range, sum } from "d3-array";
import { parameterAt, type TransformedNormal } from "../../model/soil/transformedNormal.ts";

/** Mean, standard deviation and kurtosis (the fourth central moment over the variance squared, 3 for a normal). */
export interface Moments {
  mean: number;
  sd: number;
  kurtosis: number;
}

/** Standard deviations from the middle, and how finely the bell curve is summed: the cut ends are then good to 1e-4 standard deviations. */
const REACH = 8;
const POINTS = 10_000;

/** Moments of a parameter within its limits, and at least `least`, by the midpoint rule in the normal variable. */
export function momentsWithin(spread: TransformedNormal, least = spread.lowest): Moments {
  const inside = range(POINTS)
    .map((i) => -REACH + ((i + 0.5) * 2 * REACH) / POINTS)
    .map((z) => ({ x: parameterAt(spread, z), weight: Math.exp((-z * z) / 2) }))
    .filter(({ x }) => x >= Math.max(least, spread.lowest) && x <= spread.highest);
  const total = sum(inside, ({ weight }) => weight);
  const average = (f: (x: number) => number) => sum(inside, ({ x, weight }) => f(x) * weight) / total;
  return momentsBy(average);
}

export function momentsOf(sample: readonly number[]): Moments {
  return momentsBy((f) => mean(sample, f)!);
}

function momentsBy(average: (f: (x: number) => number) => number): Moments {
  const middle = average((x) => x);
  const variance = average((x) => (x - middle) ** 2);
  return { mean: middle, sd: Math.sqrt(variance), kurtosis: average((x) => (x - middle) ** 4) / variance ** 2 };
}

/** Standard errors of the mean and of the standard deviation of so many independent draws. */
export function standardErrors({ sd, kurtosis }: Moments, draws: number): { mean: number; sd: number } {
  return { mean: sd / Math.sqrt(draws), sd: (sd / 2) * Math.sqrt((kurtosis - 1) / draws) };
}
