import { expect, test } from "vitest";
import { drawWithin, parameterAt, type TransformedNormal } from "../../model/soil/transformedNormal.ts";
import { expectClose } from "../support/close.ts";

const spread = { lowest: 1, highest: 3, mean: 0.4, sd: 0.2 };

/** What makes a parameter normal, as its name says; the limits are 1 and 3. */
const TRANSFORM: Record<TransformedNormal["form"], (x: number) => number> = {
  normal: (x) => x,
  "log-normal": (x) => Math.log(x),
  "log-ratio": (x) => Math.log((x - 1) / (3 - x)),
  "hyperbolic arcsine": (x) => Math.asinh((x - 1) / (3 - 1)),
  "log-normal above 1": (x) => Math.log(x - 1),
};

test.each(Object.entries(TRANSFORM))("the transformed value of a parameter is normal: %s", (form, transform) => {
  for (const z of [-2, 0, 1.5]) {
    const x = parameterAt({ form: form as TransformedNormal["form"], ...spread }, z);
    expectClose(transform(x), 0.4 + 0.2 * z, { tolerance: 1e-12, what: `y at z = ${z}` });
  }
});

/** Hands out numbers that were written down. */
function scripted(numbers: number[]): () => number {
  const left = [...numbers];
  return () => left.shift()!;
}

test("a parameter beyond a limit is drawn again, not moved to the limit", () => {
  const normal: TransformedNormal = { form: "normal", lowest: 1, highest: 3, mean: 2, sd: 1 };
  expect(drawWithin(normal, scripted([-1.5, 1.5, 0.5]))).toBe(2.5);
  expect(drawWithin(normal, scripted([-1]))).toBe(1);
  expect(drawWithin(normal, scripted([-0.5, 0.25]), 1.75)).toBe(2.25);
  expect(drawWithin(normal, scripted([-1.5, 0.5]), 0)).toBe(2.5);
});
