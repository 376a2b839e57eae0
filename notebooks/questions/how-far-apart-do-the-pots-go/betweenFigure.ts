/** A row of pots cut through their axes, to scale: how moist the ground is from one to the next. */
import * as Plot from "@observablehq/plot";
import { range, transpose } from "d3-array";
import { type Frame, type GridLines, type PotShape, sampleRows } from "../../../model/public/flow.ts";
import { last } from "../../../model/public/plan.ts";
import { formatSuction, type UnitSystem } from "../../../model/public/units.ts";
import {
  edgeContour,
  moistureBands,
  moistureKey,
  potMarks,
  sampleSoil,
  wetnessOf,
} from "../../figures/crossSection.ts";
import { ink, moistureColours, moistureThresholds, paper, warning } from "../../figures/look.ts";
import { chart, mirrored, tickedAxis } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface BetweenFigure {
  grid: GridLines;
  frame: Frame;
  pot: PotShape;
  spacing: number;
  /** Pressure head at the edge of easy water. */
  easyWaterHead: number;
  /** Of most roots, and what is read there midway. */
  reading: { depth: number; head: number };
  units: UnitSystem;
}

/** Half the width drawn, cm; pots farther apart than this shows need more. */
const HALF_WIDTHS = [75, 100, 150];
const DEPTH = 70;
const ABOVE = 20;

export function drawBetween(figure: BetweenFigure, label: string, stage: Stage): SVGElement {
  const { pot, spacing, frame, units } = figure;
  const half = HALF_WIDTHS.find((width) => spacing / 2 + 20 <= width) ?? last(HALF_WIDTHS);
  const margins = { marginLeft: 44, marginRight: 12, marginTop: 14, marginBottom: 44 };
  const scale = (stage.width - margins.marginLeft - margins.marginRight) / (2 * half);
  const axes = range(-Math.ceil(half / spacing) - 1, Math.ceil(half / spacing) + 1).map((k) => (k + 0.5) * spacing);
  const shownPots = axes.filter((axis) => Math.abs(axis) < half + spacing);
  const axis = (name: string, from: number, to: number, step: number) =>
    tickedAxis({ name, quantity: "length", from, to, step, units });
  return chart(label, stage, {
    ...margins,
    height: margins.marginTop + margins.marginBottom + scale * (DEPTH + ABOVE),
    x: { domain: [-half, half], axis: null },
    y: { domain: [DEPTH, -ABOVE], axis: null },
    color: { type: "threshold", domain: moistureThresholds, range: moistureColours },
    marks: [
      ...groundMarks(figure, half),
      // Layer by layer, or one half's wall would show through the middle of the other.
      ...shownPots.flatMap((axis) =>
        transpose(([1, -1] as const).map((side) => potMarks(pot, frame.waterLevelDepth, side, axis))).flat(),
      ),
      Plot.ruleY([0], { x1: -half, x2: half, stroke: ink, strokeWidth: 1.5 }),
      ...readingMarks(figure),
      ...moistureKey({ radius: half, depth: DEPTH, above: ABOVE }, 0.08 * half),
      Plot.axisX({
        anchor: "bottom",
        ...mirrored(axis("distance from midway between two pots", -half, half, units === "us" ? 10 : 25)),
      }),
      Plot.axisY({ anchor: "left", ...axis("depth", 0, DEPTH, units === "us" ? 10 : 20) }),
    ],
  });
}

function groundMarks({ grid, frame, spacing, easyWaterHead }: BetweenFigure, half: number): Plot.Markish[] {
  const { x, d, place } = sampleSoil({ radius: half, depth: DEPTH, above: ABOVE }, -half);
  const toPot = x.map((each) => Math.abs(each - (Math.floor(each / spacing) + 0.5) * spacing));
  const valuesOf = (field: Float64Array) => sampleRows(grid, field, toPot, d);
  return [
    moistureBands(valuesOf(frame.theta), place),
    edgeContour(valuesOf(frame.h.map(wetnessOf)), place, wetnessOf(easyWaterHead), { strokeDasharray: "6 3" }),
    Plot.rect([0], { x1: -half, x2: half, y1: -ABOVE, y2: 0, fill: paper }),
  ];
}

function readingMarks({ reading, easyWaterHead }: BetweenFigure): Plot.Markish[] {
  const isEasy = reading.head >= easyWaterHead;
  const words = `${isEasy ? "easy water" : "too dry"} midway: ${formatSuction(Math.min(reading.head, 0))}`;
  return [
    Plot.ruleX([0], { y1: 0, y2: DEPTH, stroke: ink, strokeDasharray: "2 3" }),
    Plot.dot([0], { x: 0, y: reading.depth, r: 5, fill: isEasy ? moistureColours[7] : warning, stroke: paper }),
    Plot.text([words], { x: 0, y: DEPTH, dy: -10, fill: ink, stroke: paper, fontWeight: "bold" }),
  ];
}
