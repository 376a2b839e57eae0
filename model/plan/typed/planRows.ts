/**
 * Every input of the saved plan, as a person types it. Lengths are in cm or inches, volumes in L or US gal, wall
 * conductivity in cm/day or in/day, temperatures in °C or °F, rain in mm or inches, after `units`; suctions are positive
 * kPa, times days, and a soil's own parameters cm and day in both. A soil, a pot and a crop must be named; all else has a
 * default.
 */
import { bedRows } from "./bedRows.ts";
import { cropRow, rootDepthRow, sowingDayRow, sowingRow } from "./cropRows.ts";
import { lineRow } from "./lineRows.ts";
import { livingRows } from "./livingRows.ts";
import { fillingRow, potRow } from "./potRows.ts";
import { days, fixed, text } from "./row.ts";
import { bedMixRow, soilRow, startRows } from "./soilRows.ts";
import { supplyRows } from "./supplyRows.ts";

const FROM_THE_FILE = "It is written in the plan's file.";

export const PLAN_ROWS = {
  version: fixed("plan version", () => 1, { noControl: "The program writes it.", bearsOn: [] }),
  units: fixed("unit system", (units) => units, {
    description: '"metric" or "us"',
    noControl: "It is the page's own switch.",
    bearsOn: ["units"],
  }),
  name: text("name of the plan", { default: "", noControl: FROM_THE_FILE, bearsOn: ["name"] }),
  notes: text("notes", { default: "", noControl: FROM_THE_FILE, bearsOn: ["notes"] }),
  soil: soilRow,
  pot: potRow,
  filling: fillingRow,
  ...startRows,
  days: days("days to look ahead", [0.01, 120], {
    default: 14,
    bearsOn: ["days"],
    slider: [1, 60],
    step: 1,
  }),
  crop: cropRow,
  rootDepth: rootDepthRow,
  sowing: sowingRow,
  sowingDay: sowingDayRow,
  bedMix: bedMixRow,
  ...livingRows,
  ...bedRows,
  ...supplyRows,
  line: lineRow,
};
