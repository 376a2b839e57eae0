/** Three pots whose walls may be anything that potters make: how far water spreads, and what its reach goes with. */
import { bandsOf, drawMembers, OUTCOME_DAYS, rankCorrelation, solveMember } from "../../model/public/ensemble.ts";
import { resolvePlan } from "../../model/public/plan.ts";

const plan = resolvePlan({
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 30 },
  crop: { kind: "listed", name: "tomato" },
  filling: { kind: "float" },
});
if (!plan.ok) throw new Error("the plan has faults");

const bed = plan.value;
const members = drawMembers(bed, { count: 3, seed: 1, varied: ["wall"] });
const outcomes = members.map((member) => solveMember(bed, member, { kind: "sowing", sowingDay: 3 }));

const reach = bandsOf(bed, outcomes)?.radius.find(({ day }) => day === 7);
if (reach)
  console.log(`On day 7 easy water reaches ${reach.low} to ${reach.high} cm, in the middle ${reach.median} cm.`);

const radii = outcomes.map(({ radius }) => radius[OUTCOME_DAYS.indexOf(7)] ?? Number.NaN);
const walls = members.map(({ wallFactor }) => wallFactor);
console.log(
  `The reach rises with what walls let through: rank correlation ${rankCorrelation(walls, radii).toFixed(2)}.`,
);
console.log(`Members, in cm: ${radii.join(", ")}`);
