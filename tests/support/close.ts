import { expect } from "vitest";

export interface Closeness {
  /** Largest allowed difference, in `unit`, or as a fraction of the expected value when `relative`. */
  tolerance: number;
  relative?: boolean;
  unit?: string;
  what: string;
}

/** Holds a number against a known one; tells both, the difference and the limit if it fails, and always in a verbose run. */
export function expectClose(actual: number, expected: number, { tolerance, relative, unit = "", what }: Closeness) {
  const limit = relative ? tolerance * Math.abs(expected) : tolerance;
  const difference = Math.abs(actual - expected);
  const line = `${what}: actual ${actual} ${unit}, expected ${expected} ${unit}, off by ${difference.toPrecision(3)}, allowed ${limit.toPrecision(3)}`;
  if (process.env.VERBOSE) console.info(line);
  expect(difference <= limit, line).toBe(true);
}
