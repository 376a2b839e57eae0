import { soundValue } from "../../model/input/faults.ts";
import { type Plan, resolvePlan } from "../../model/plan/plan.ts";

const BED = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 22 },
  crop: { kind: "listed", name: "tomato" },
};

/** A small pot in loam with tomatoes; the rest as a plan leaves it. */
export const plan = (changes: object = {}): Plan => soundValue(resolvePlan({ ...BED, ...changes }));
