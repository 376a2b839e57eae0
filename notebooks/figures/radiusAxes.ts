/** Axes of a chart of the wetted radius over the days; they stay put while a slider moves. */
import { TOLD_DAYS } from "../../model/public/flow.ts";
import { fromModel, type UnitSystem } from "../../model/public/units.ts";
import { axisLabel } from "./plotting.ts";

/** Top of the axis, cm. */
export const HIGHEST_RADIUS = 70;

export const radiusAxes = (lastDay: number, units: UnitSystem) => ({
  x: {
    domain: [0, lastDay],
    label: "days after the first filling",
    ticks: [0, ...TOLD_DAYS],
  },
  y: {
    domain: [0, fromModel(HIGHEST_RADIUS, "length", units)],
    label: axisLabel("wetted radius", "length", units),
    ticks: 6,
    grid: true,
  },
});
