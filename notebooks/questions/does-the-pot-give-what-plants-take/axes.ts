/** Axes that stay put while a slider moves, and go to the next step only where values would not fit. */
import { COMPARED_DAYS } from "../../../model/public/advice.ts";

const STEPS = [1, 2, 5];

/** The least of 1, 2, 5, 10, 20 … that all values fit under; at least `least`. */
export function roundTop(values: readonly number[], least: number): number {
  const largest = Math.max(least, ...values);
  const size = 10 ** Math.floor(Math.log10(largest));
  return size * (STEPS.find((step) => step * size >= largest - 1e-9) ?? 10);
}

export const dayAxis = {
  domain: [0, COMPARED_DAYS],
  label: "days after the first filling",
  ticks: [0, 2, 4, 6, 8, 10, 12, 14],
};
