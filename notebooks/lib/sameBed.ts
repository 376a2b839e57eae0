import type { Plan } from "../../model/index.ts";

/** The same for plans that differ by name, notes or units alone: these change no outcome. */
export const bedKey = (plan: Plan): string => JSON.stringify({ ...plan, name: "", notes: "", units: "" });

/** All of a plan that runs rest on: without the bed's edge, the places of its pots, and what is carried there. */
export function unplaced(plan: Plan): Plan {
  const outline = { shape: "rectangle", length: 100, width: 100 } as const;
  const bed = {
    ...plan.bed,
    outline,
    rowAngle: 0,
    edgeDistance: 0,
    isEdgeUsual: true,
    potPlaces: null,
    plantSpacing: 0,
  };
  const carrying = { canLitres: 1, hoseLitresPerMinute: 1 };
  return { ...plan, bed, carrying, name: "", notes: "", units: "metric" };
}
