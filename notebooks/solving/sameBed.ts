import type { Plan } from "../../model/public/plan.ts";

/** The same for plans that differ by name, notes or units alone: these change no outcome. */
export const bedKey = (plan: Plan): string => JSON.stringify({ ...plan, name: "", notes: "", units: "" });

const NO_LINE: Plan["line"] = {
  celsius: 0,
  valve: "ball valve",
  mainLength: 0,
  mainBore: 0,
  mainHump: null,
  rowBore: 0,
  rowHeight: 0,
  tubeBore: 0,
  tubeLength: 0,
  tubeEndHeight: 0,
  emitter: null,
  whenFull: "stop",
  joints: null,
  wantedMinutes: 0,
  slack: 0,
};

/** All of a plan that runs rest on: without the bed's edge, the places of its pots, and how its water comes there. */
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
  const { weather } = plan;
  const supply = {
    roof: { area: 0, runoff: 0, firstFlushMm: 0 },
    tank: { litres: 0, waterHeight: 0, outletHeight: 0, lid: true },
    spareTanks: null,
    topUp: null,
    line: NO_LINE,
  };
  return {
    ...plan,
    bed,
    carrying,
    ...supply,
    weather: { ...weather, years: null },
    name: "",
    notes: "",
    units: "metric",
  };
}
