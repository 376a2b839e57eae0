/** Two half cross-sections back to back around the pot's axis, to scale. */
import * as Plot from "@observablehq/plot";
import { greatest } from "d3-array";
import { type PotShape, sampleRows, VISIBLE_RISE } from "../../../model/public/flow.ts";
import { entry, first } from "../../../model/public/plan.ts";
import type { UnitSystem } from "../../../model/public/units.ts";
import {
  type DrawnWindow,
  edgeContour,
  moistureBands,
  moistureKey,
  pointsAbove,
  potMarks,
  sampleSoil,
} from "../../figures/crossSection.ts";
import { ink, moistureColours, moistureThresholds, paper } from "../../figures/look.ts";
import { chart, mirrored, tickedAxis } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import type { Racer } from "./race.ts";

export interface RaceFigure {
  left: Racer;
  right: Racer;
  pot: PotShape;
  window: DrawnWindow;
  units: UnitSystem;
}

export function drawRace(figure: RaceFigure, label: string, stage: Stage): SVGElement {
  const { window, units, left, right } = figure;
  const margins = { marginLeft: 44, marginRight: 16, marginTop: 12, marginBottom: 44 };
  const scale = (stage.width - margins.marginLeft - margins.marginRight) / (2 * window.radius);
  const samples = sampleBoth(figure);
  return chart(label, stage, {
    ...margins,
    height: margins.marginTop + margins.marginBottom + scale * (window.depth + window.above),
    x: { domain: [-window.radius, window.radius], axis: null },
    y: { domain: [window.depth, -window.above], axis: null },
    color: { type: "threshold", domain: moistureThresholds, range: moistureColours },
    marks: [
      ...soilMarks(samples, window),
      ...[left, right].flatMap((racer) => potMarks(figure.pot, racer.waterLevelDepth, sideOf(racer, figure))),
      Plot.ruleX([0], { y1: 0, y2: window.depth, stroke: ink, strokeDasharray: "1 4" }),
      Plot.ruleY([0], { stroke: ink, strokeWidth: 1.5 }),
      ...moistureKey(window, 0.07 * window.radius),
      ...[left, right].flatMap((racer) => names(racer, sideOf(racer, figure), samples, window)),
      ...axes(window, units),
    ],
  });
}

/** −1 on the left of the axis, 1 on the right. */
type Side = -1 | 1;
const sideOf = (racer: Racer, { left }: RaceFigure): Side => (racer === left ? -1 : 1);

function sampleBoth({ left, right, window }: RaceFigure) {
  const samples = sampleSoil(window, -window.radius);
  const { x, d } = samples;
  const moistureOf = ({ run, theta }: Racer) => sampleRows(run.grid, theta, x.map(Math.abs), d);
  const [onLeft, onRight] = [moistureOf(left), moistureOf(right)];
  const isLeft = (k: number) => entry(x, k % x.length) < 0;
  const moisture = onLeft.map((value, k) => (isLeft(k) ? value : entry(onRight, k)));
  const rise = moisture.map((value, k) => value - first((isLeft(k) ? left : right).run.startTheta));
  return { ...samples, moisture, rise };
}

type Samples = ReturnType<typeof sampleBoth>;

function soilMarks({ moisture, rise, place }: Samples, { radius, depth, above }: DrawnWindow): Plot.Markish[] {
  return [
    Plot.rect([0], { x1: -radius, x2: radius, y1: 0, y2: depth, fill: moistureColours[0] }),
    moistureBands(moisture, place),
    edgeContour(rise, place, VISIBLE_RISE, { strokeWidth: 2 }),
    Plot.rect([0], { x1: -radius, x2: radius, y1: -above, y2: 0, fill: paper }),
  ];
}

/** The soil's name in its corner, and its front's at the deepest point of its half. */
function names({ name }: Racer, side: Side, samples: Samples, { radius }: DrawnWindow): Plot.Markish[] {
  const textAnchor = side < 0 ? ("start" as const) : ("end" as const);
  const words = { fill: ink, stroke: paper, textAnchor };
  const wet = pointsAbove(VISIBLE_RISE, samples.rise, samples).filter(({ x }) => x * side > 0);
  const deepest = greatest(wet, ({ x, d }) => d - 0.05 * Math.abs(x));
  return [
    Plot.text([name], { x: side * (radius - 1.5), y: 5, text: [name], fontSize: 16, fontWeight: "bold", ...words }),
    Plot.text(deepest ? [deepest] : [], {
      x: side * 1.5,
      y: "d",
      dy: 12,
      text: ["front"],
      ...words,
      stroke: moistureColours[0],
      textAnchor: side < 0 ? "end" : "start",
    }),
  ];
}

function axes({ radius, depth }: DrawnWindow, units: UnitSystem): Plot.Markish[] {
  const step = units === "metric" ? 10 : 4;
  const axis = (name: string, from: number, to: number, step: number) =>
    tickedAxis({ name, quantity: "length", from, to, step, units });
  return [
    Plot.axisX({ anchor: "bottom", ...mirrored(axis("distance from the pot's centre", -radius, radius, 2 * step)) }),
    Plot.axisY({ anchor: "left", ...axis("depth", 0, depth, step) }),
  ];
}
