import * as Plot from "@observablehq/plot";
import { last } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { faint, seriesLooks } from "../../figures/look.ts";
import { chart, endNames, margins, spreadApart } from "../../figures/plotting.ts";
import { HIGHEST_RADIUS, radiusAxes } from "../../figures/radiusAxes.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface Spread {
  name: string;
  look: keyof typeof seriesLooks;
  points: { day: number; radius: number }[];
  radiusOn(day: number): number;
  depthOn(day: number): number;
}

export interface SpreadFigure {
  spreads: Spread[];
  /** The day marked by a line. */
  day: number;
  lastDay: number;
  units: UnitSystem;
}

export function drawSpread({ spreads, day, lastDay, units }: SpreadFigure, stage: Stage): SVGElement {
  const length = (cm: number) => fromModel(cm, "length", units);
  const ends = spreads.map(({ name, look, points }) => ({
    name,
    colour: seriesLooks[look].colour,
    y: length(last(points).radius),
  }));
  return chart("Wetted radius against days after the first filling", stage, {
    height: Math.min(420, Math.max(280, stage.width * 0.55)),
    ...margins(20, stage.width < 500 ? 76 : 100, 40, 44),
    ...radiusAxes(lastDay, units),
    marks: [
      Plot.ruleX([day], { stroke: faint, strokeDasharray: "2 3" }),
      ...spreads.flatMap((spread) => seriesMarks(spread, length)),
      endNames(spreadApart(ends, length(HIGHEST_RADIUS) / 16), { x: lastDay }),
    ],
  });
}

function seriesMarks({ look, points }: Spread, length: (cm: number) => number): Plot.Markish[] {
  const { colour, dash, symbol } = seriesLooks[look];
  const shown = points.filter(({ radius }) => radius > 0).map(({ day, radius }) => ({ x: day, y: length(radius) }));
  const marked = [1, 3, 7].flatMap((day) => shown.filter(({ x }) => Math.abs(x - day) < 1e-9).slice(0, 1));
  return [
    Plot.line(shown, {
      x: "x",
      y: "y",
      stroke: colour,
      strokeDasharray: dash,
      strokeWidth: look === "own" ? 2.6 : 1.8,
      clip: true,
    }),
    Plot.dot(marked, { x: "x", y: "y", fill: colour, symbol, r: 4 }),
  ];
}
