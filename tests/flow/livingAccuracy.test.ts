import { cross } from "d3-array";
import { expect, it } from "vitest";
import { oneIn } from "../support/deep.ts";
import {
  DRYING_SOILS,
  DRYING_STARTS,
  DRYING_TRUTH,
  dryingCylinder,
  EARLY_ALLOWED,
  LIVING_ALLOWED,
  livingCylinder,
  livingErrors,
  takenError,
  withShower,
} from "../support/living.ts";
import { runToEnd } from "../support/runs.ts";

// Against the reference setting, in three soils: `livingAccuracy.deep.test.ts`.
it("with roots, sun, a shower, an open pot and a bed mix, live is as near to standard as it must be to the truth", () => {
  const problem = withShower(livingCylinder("loam"));
  const [live, standard] = [runToEnd({ ...problem, accuracy: "live" }), runToEnd(problem)];
  const errors = livingErrors(live, standard);
  expect(errors.seepage).toBeLessThanOrEqual(LIVING_ALLOWED.live.seepage);
  expect(errors.uptake).toBeLessThanOrEqual(LIVING_ALLOWED.live.uptake);
  expect(errors.evaporation).toBeLessThanOrEqual(LIVING_ALLOWED.live.evaporation);
});

// What is left in dry sand is a hair of water: where roots were let to take more than that, some cells stood below their
// residual water content, and the same two weeks took hundreds of steps.
it("roots that empty dry sand leave every cell its residual water, in few steps", () => {
  const problem = { ...livingCylinder("sand"), topLayer: null, accuracy: "live" as const };
  const run = runToEnd(problem);
  expect(run.steps).toBeLessThan(80);
  const { thetaR } = problem.soil;
  for (const { theta } of run.frames) expect(theta.every((value) => value >= thetaR)).toBe(true);
});

// First rows of 1 and 0.5 cm took 13 and 7 % too little from dry clay.
it.each(oneIn(7, cross(DRYING_SOILS, DRYING_STARTS)))(
  "in %s at %d cm evaporation of the first day is right at each setting",
  (soil, startHead) => {
    const problem = dryingCylinder(soil, startHead);
    const truth = runToEnd(problem, { fineness: DRYING_TRUTH });
    for (const accuracy of ["live", "standard"] as const) {
      const error = takenError(runToEnd({ ...problem, accuracy }), truth, "evaporationLitres");
      expect(error, accuracy).toBeLessThanOrEqual(EARLY_ALLOWED[accuracy].evaporation);
    }
  },
);
