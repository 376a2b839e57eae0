/** A bed as a person types it, in both unit systems. */
import { resolvePlan } from "../../model/plan/plan.ts";

export const BED = {
  version: 1,
  units: "metric",
  soil: { kind: "class", name: "loam" },
  pot: { shape: "cylinder", diameter: 20, height: 25 },
  crop: { kind: "listed", name: "tomato" },
};
export const US_BED = { ...BED, units: "us", pot: { shape: "cylinder", diameter: 8, height: 10 } };

/** Where each fault stands, and what it says. */
export function faultsOf(changes: object, bed: object = BED) {
  const result = resolvePlan({ ...bed, ...changes });
  return result.ok ? [] : result.faults.map(({ path, message }) => [path, message]);
}
