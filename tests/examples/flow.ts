/** A pot kept full in dry loam: what its wall lets through at most, and what soil and wall let through together. */
import { buildPot, planToProblem, releaseIntoSuction, simulateToEnd } from "../../model/public/flow.ts";
import { resolvePlan } from "../../model/public/plan.ts";

const plan = resolvePlan({
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 30, wallThickness: 1, wallConductivity: 0.01, rimAboveSoil: 0 },
  crop: { kind: "listed", name: "tomato" },
  filling: { kind: "float" },
});
if (!plan.ok) throw new Error("the plan has faults");

const wet = releaseIntoSuction(buildPot(plan.value.pot), 0, 0);
console.log(`Sunk in wet soil, the full pot would lose ${wet.toFixed(4)} L a day.`);

const run = simulateToEnd(planToProblem(plan.value, { days: [1, 3] }));
console.log(
  `The run is ${run.status} after ${run.steps} steps; it loses ${run.balanceError.toExponential(0)} of its water.`,
);
for (const { day, seepageLitres } of run.rows)
  console.log(`By day ${day} the pot has given ${seepageLitres.toFixed(2)} L.`);
