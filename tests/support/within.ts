import { expect } from "vitest";
import { ALLOWED_ERROR } from "../../model/flow/gridRule.ts";
import { type Errors, isWithin } from "./errors.ts";

/** Holds a run's errors against those that its setting is allowed. */
export function expectWithin(errors: Errors, accuracy: "live" | "standard", what: string) {
  const text = Object.entries(errors).map(([name, error]) => `${name} ${(100 * error).toFixed(2)} %`);
  const line = `${what}, ${accuracy}: off by ${text.join(", ")}`;
  console.info(line);
  expect(isWithin(errors, ALLOWED_ERROR[accuracy]), line).toBe(true);
}
