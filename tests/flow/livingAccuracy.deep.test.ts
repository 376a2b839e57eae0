import { expect, it } from "vitest";
import {
  drinkingCylinder,
  EARLY_ALLOWED,
  LIVING_ALLOWED,
  livingCylinder,
  livingErrors,
  takenError,
  withShower,
} from "../support/living.ts";
import { runToEnd } from "../support/runs.ts";

const percent = (share: number) => `${(100 * share).toFixed(2)} %`;

it.each([
  ["sand", livingCylinder("sand")],
  ["loam", withShower(livingCylinder("loam"))],
  ["clay", livingCylinder("clay")],
])(
  "with roots, sun, an open pot and a bed mix over %s, what pot, roots and air give and take is right at each setting",
  (name, problem) => {
    const reference = runToEnd({ ...problem, accuracy: "reference" });
    for (const accuracy of ["live", "standard"] as const) {
      const errors = livingErrors(runToEnd({ ...problem, accuracy }), reference);
      for (const [what, error] of Object.entries(errors) as [keyof typeof errors, number][]) {
        const allowed = LIVING_ALLOWED[accuracy][what];
        console.info(`${name}, ${accuracy}, ${what}: off by ${percent(error)}, allowed ${percent(allowed)}`);
        expect(error, `${accuracy}, ${what}`).toBeLessThanOrEqual(allowed);
      }
    }
  },
);

it("in sandy loam with a float uptake until the third day is right at each setting", () => {
  const reference = runToEnd({ ...drinkingCylinder(), accuracy: "reference" });
  for (const accuracy of ["live", "standard"] as const) {
    const error = takenError(runToEnd({ ...drinkingCylinder(), accuracy }), reference, "uptakeLitres");
    console.info(`${accuracy}, uptake until day 3: off by ${percent(error)}`);
    expect(error, accuracy).toBeLessThanOrEqual(EARLY_ALLOWED[accuracy].uptake);
  }
});
