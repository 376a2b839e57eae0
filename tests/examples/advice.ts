/** One filling of a pot in dry loam: how long it lasts, where seeds find water, and what a bigger pot would hold. */
import { alternatives, fillingLasts, sowingAdvice, waterGiven } from "../../model/public/advice.ts";
import { planToProblem, potLitres, simulateToEnd } from "../../model/public/flow.ts";
import { resolvePlan } from "../../model/public/plan.ts";

const plan = resolvePlan({
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 30, wallThickness: 1, wallConductivity: 0.01 },
  crop: { kind: "listed", name: "tomato" },
  filling: { kind: "once" },
});
if (!plan.ok) throw new Error("the plan has faults");

const run = simulateToEnd(planToProblem(plan.value, { accuracy: "live" }));
const lasts = fillingLasts(plan.value, run, potLitres(plan.value.pot));
const given = waterGiven(plan.value, run).total;
if (lasts.kind === "empty") console.log(`The pot has given ${given.toFixed(2)} L and is empty on day ${lasts.day}.`);

const sowing = sowingAdvice(plan.value, run);
if (sowing.kind === "band")
  console.log(`Sow on day ${sowing.band.sowingDay}, up to ${sowing.band.outer.toFixed(0)} cm from the wall.`);

const bigger = alternatives(plan.value).find(({ name }) => name === "bigger pot");
if (bigger?.plan.pot.shape === "cylinder")
  console.log(`A pot twice the size has a radius of ${bigger.plan.pot.outerRadius.toFixed(3)} cm.`);
