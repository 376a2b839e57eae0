/** A bed as a person types it: its faults in words, or else the plan in cm and days. */
import { faultLines, layOutPots, readPlan } from "../../model/public/plan.ts";

const typed = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 24, height: 30 },
  crop: { kind: "listed", name: "tomato" },
  bed: { shape: "rectangle", length: 3, width: 1.2 },
  spacing: 60,
  edgeDistance: 20,
};

const crowded = readPlan(JSON.stringify({ ...typed, spacing: 20 }));
if (!crowded.ok) console.log(`Pots 20 cm apart:\n${faultLines(crowded.faults)}`);

const plan = readPlan(JSON.stringify(typed));
if (!plan.ok) throw new Error(faultLines(plan.faults));
const { bed, crop } = plan.value;
console.log(`Pots ${bed.spacing} cm apart: ${layOutPots(bed.outline, bed).length} pots find a place.`);
console.log(`${crop.name} drinks freely down to a pressure head of ${crop.easyWaterHead.toFixed(0)} cm.`);
