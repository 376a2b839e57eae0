/**
 * Half a cross-section through bed and pot, to scale: the pot's axis is the left edge, the soil surface on top, depth
 * runs down. Soil moisture as bands of colour; edges of wetness as lines.
 */
import * as Plot from "@observablehq/plot";
import { bisectRight, extent, greatest, range } from "d3-array";
import {
  type Frame,
  type GridLines,
  innerSurface,
  type OutlinePoint,
  outlineOf,
  type PotShape,
  sampleRows,
} from "../../model/public/flow.ts";
import { entry, first, last } from "../../model/public/plan.ts";
import { bothSystems, type UnitSystem } from "../../model/public/units.ts";
import type { Stage } from "../notebook/notebook.ts";
import { faint, ink, moistureColours, moistureThresholds, paper, potWater, terracotta } from "./look.ts";
import { chart, tickedAxis } from "./plotting.ts";

export interface CrossSection {
  grid: GridLines;
  frame: Frame;
  pot: PotShape;
  edges: EdgeLine[];
  /** What is drawn, cm; keep it while a slider moves. */
  window: DrawnWindow;
  units: UnitSystem;
}

export interface DrawnWindow {
  radius: number;
  depth: number;
  above: number;
}

/** A line of equal suction; its label stands where the line reaches farthest out or down. */
export interface EdgeLine {
  head: number;
  label: string;
  labelAt: "widest" | "deepest";
  dash: string;
}

export function drawCrossSection(section: CrossSection, label: string, stage: Stage): SVGElement {
  const { window } = section;
  const margins = { marginLeft: 44, marginRight: 44, marginTop: 40, marginBottom: 44 };
  const scale = (stage.width - margins.marginLeft - margins.marginRight) / window.radius;
  return chart(label, stage, {
    ...margins,
    height: margins.marginTop + margins.marginBottom + scale * (window.depth + window.above),
    x: { domain: [0, window.radius], axis: null },
    y: { domain: [window.depth, -window.above], axis: null },
    color: { type: "threshold", domain: moistureThresholds, range: moistureColours },
    marks: [
      ...soilMarks(section),
      Plot.ruleY([0], { x1: 0, x2: window.radius, stroke: ink, strokeWidth: 1.5 }),
      ...potMarks(section.pot, section.frame.waterLevelDepth),
      ...moistureKey(window),
      ...rulers(section),
    ],
  });
}

/** Distance between samples, and how far they reach beyond the window, so that no edge follows the frame; cm. */
const spacing = 1.2;
const beyond = 2 * spacing;

function soilMarks({ grid, frame, edges, window }: CrossSection): Plot.Markish[] {
  const { x, d, place } = sampleSoil(window);
  const moisture = sampleRows(grid, frame.theta, x, d);
  const wetness = sampleRows(grid, frame.h.map(wetnessOf), x, d);
  return [
    Plot.rect([0], { x1: 0, x2: window.radius, y1: 0, y2: window.depth, fill: moistureColours[0] }),
    moistureBands(moisture, place),
    ...edges.map(({ head, dash }) => edgeContour(wetness, place, wetnessOf(head), { strokeDasharray: dash })),
    Plot.rect([0], { x1: 0, x2: window.radius, y1: -window.above, y2: 0, fill: paper }),
    ...edges.flatMap((edge) => edgeLabel(edge, pointsAbove(wetnessOf(edge.head), wetness, { x, d }))),
  ];
}

/** Suction on a scale on which it changes evenly across a front, the wetter the higher. */
export const wetnessOf = (h: number) => -Math.log10(Math.max(-h, 1));

/** The middles of even squares over the soil drawn: `x` from `left` outward, `d` from above the surface down. */
export function sampleSoil({ radius, depth }: DrawnWindow, left = 0) {
  const [x1, y1] = [left - beyond, -beyond];
  const width = Math.ceil((radius + beyond - x1) / spacing);
  const height = Math.ceil((depth + beyond - y1) / spacing);
  const middles = (count: number, from: number) => range(count).map((i) => from + (i + 0.5) * spacing);
  const place = { width, height, x1, x2: x1 + width * spacing, y1, y2: y1 + height * spacing };
  return { x: middles(width, x1), d: middles(height, y1), place };
}

type Samples = ReturnType<typeof sampleSoil>;
type Place = Samples["place"];

/** Where `values` are above a threshold. */
export const pointsAbove = (threshold: number, values: readonly number[], { x, d }: Pick<Samples, "x" | "d">) =>
  values.flatMap((value, k) =>
    value > threshold ? { x: entry(x, k % x.length), d: entry(d, Math.floor(k / x.length)) } : [],
  );

/** Bands drier or wetter than any sample would cost as much as those that are seen. */
export function moistureBands(moisture: readonly number[], place: Place) {
  const [driest = 0, wettest = 0] = extent(moisture);
  const from = Math.max(0, bisectRight(moistureThresholds, driest) - 1);
  const thresholds = moistureThresholds.slice(from, bisectRight(moistureThresholds, wettest));
  return sampledContour(moisture, place, { fill: "value", thresholds });
}

/** Where `values` pass a threshold. */
export const edgeContour = (values: readonly number[], place: Place, threshold: number, look: Plot.ContourOptions) =>
  sampledContour(values, place, { stroke: ink, strokeWidth: 1.8, ...look, thresholds: [threshold] });

/**
 * Contours read from the samples by place: scattered points would be joined again in every drawing. Inside the pot
 * the soil beside it goes on, so that no line turns along the wall.
 */
function sampledContour(values: readonly number[], place: Place, options: Plot.ContourOptions) {
  const { width, x1, y1 } = place;
  const step = (from: number, to: number) => Math.floor((to - from) / spacing);
  function value(x: number, d: number) {
    let k = step(y1, d) * width + step(x1, x);
    while (Number.isNaN(values[k])) k += x < 0 ? -1 : 1;
    return values[k];
  }
  return Plot.contour({ ...place, ...options, value, clip: true });
}

function edgeLabel({ label, labelAt }: EdgeLine, wet: ReturnType<typeof pointsAbove>): Plot.Markish[] {
  const place = labelAt === "widest" ? greatest(wet, ({ x }) => x) : greatest(wet, ({ d, x }) => d - 1e-3 * x);
  if (!place) return [];
  const words = { text: [label], fill: ink, stroke: moistureColours[0], textAnchor: "start" as const };
  const offset = labelAt === "widest" ? { dx: 8, lineWidth: 8 } : { dx: 16, dy: 14 };
  return [Plot.text([place], { x: "x", y: "d", ...words, ...offset })];
}

/** The pot cut through its axis, which stands at `axis`, filled to a level; its right half, or the left one. */
export function potMarks(pot: PotShape, waterLevelDepth: number, side: 1 | -1 = 1, axis = 0): Plot.Markish[] {
  const outside = outlineOf(pot);
  const inside = innerSurface(outside, pot.wallThickness);
  const shape = (points: OutlinePoint[], fill: string) => {
    // A hair beyond the axis, so that no light falls between two halves.
    const closed = [{ r: -0.4, d: first(points).d }, ...points, { r: -0.4, d: last(points).d }];
    const x = ({ r }: OutlinePoint) => axis + side * r;
    return Plot.line(closed, { x, y: "d", fill, stroke: "none", curve: "linear-closed", clip: true });
  };
  return [shape(outside, terracotta), shape(openAtRim(inside), paper), shape(below(inside, waterLevelDepth), potWater)];
}

/** An inner surface carried a hair above the rim, so that no line of the wall's colour is left across the opening. */
function openAtRim(inside: OutlinePoint[]): OutlinePoint[] {
  const { r, d } = first(inside);
  return [{ r, d: d - 0.15 }, ...inside];
}

/** The part of an inner surface that lies below a water level. */
function below(inside: OutlinePoint[], level: number): OutlinePoint[] {
  const next = inside.findIndex(({ d }) => d > level);
  if (next < 0) return [last(inside)];
  if (next === 0) return inside;
  const [a, b] = [entry(inside, next - 1), entry(inside, next)];
  const r = a.r + ((b.r - a.r) * (level - a.d)) / (b.d - a.d);
  return [{ r, d: level }, ...inside.slice(next)];
}

/** Swatches above the soil, beside the pot: moisture in per cent of the soil's volume; `width` of one, cm. */
export function moistureKey({ radius, above }: DrawnWindow, width = 0.05 * radius): Plot.Markish[] {
  const left = radius - moistureColours.length * width;
  const swatches = moistureColours.map((_, i) => ({
    x1: left + i * width,
    x2: left + (i + 1) * width,
    value: 0.05 * i + 0.025,
  }));
  const [top, bottom] = [-0.45 * above, -0.25 * above];
  const small = { fontSize: 11, fill: ink };
  return [
    Plot.rect(swatches, { x1: "x1", x2: "x2", y1: top, y2: bottom, fill: "value" }),
    Plot.text(moistureThresholds, {
      x: (_, i) => left + (i + 1) * width,
      y: bottom,
      dy: 8,
      text: (value, i) => (i % 2 ? String(Math.round(100 * value)) : ""),
      ...small,
    }),
    Plot.text(["soil moisture (% of volume)"], { x: radius, y: top, dy: -8, textAnchor: "end", ...small }),
  ];
}

/** The person's unit below and on the left, the other one above and on the right. */
function rulers({ window, units }: CrossSection): Plot.Markish[] {
  const [own, other] = bothSystems(units);
  const step = { metric: 10, us: 4 };
  const axis = (name: string, to: number, units: UnitSystem) =>
    tickedAxis({ name, quantity: "length", from: 0, to, step: step[units], units });
  const x = (units: UnitSystem) => axis("distance from the pot's centre", window.radius, units);
  const y = (units: UnitSystem) => axis("depth", window.depth, units);
  return [
    Plot.axisX({ anchor: "bottom", color: ink, ...x(own) }),
    Plot.axisX({ anchor: "top", color: faint, ...x(other) }),
    Plot.axisY({ anchor: "left", color: ink, ...y(own) }),
    Plot.axisY({ anchor: "right", color: faint, ...y(other) }),
  ];
}
