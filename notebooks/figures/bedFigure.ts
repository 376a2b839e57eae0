/** A bed seen from above, to scale: its edge, its pots, how far easy water reaches from them, and where plants stand. */
import * as Plot from "@observablehq/plot";
import type { BedLayout } from "../../model/public/advice.ts";
import { wallRadiusAt } from "../../model/public/flow.ts";
import { type BedOutline, bedBounds, bedCorners, centreOf, type Place } from "../../model/public/plan.ts";
import { fromModel, MM_PER_CM, type UnitSystem } from "../../model/public/units.ts";
import type { Stage } from "../notebook/notebook.ts";
import { ink, moistureColours, paper, terracotta, warning } from "./look.ts";
import { chart, tickedAxis } from "./plotting.ts";

/** Room about the bed, cm. */
const ROOM = 22;
const MARGINS = { marginLeft: 40, marginRight: 10, marginTop: 12, marginBottom: 42 };

export interface BedScale {
  width: number;
  height: number;
  pixelsPerCm: number;
  project(place: Place): { x: number; y: number };
  placeAt(pixel: { x: number; y: number }): Place;
}

/** How a bed is drawn at a width, pixels; y runs upward. */
export function bedScale(outline: BedOutline, width: number): BedScale {
  const { x0, x1, y0, y1 } = bedBounds(outline);
  const pixelsPerCm = (width - MARGINS.marginLeft - MARGINS.marginRight) / (x1 - x0 + 2 * ROOM);
  const height = MARGINS.marginTop + MARGINS.marginBottom + pixelsPerCm * (y1 - y0 + 2 * ROOM);
  return {
    width,
    height,
    pixelsPerCm,
    project: ({ x, y }) => ({
      x: MARGINS.marginLeft + (x - x0 + ROOM) * pixelsPerCm,
      y: MARGINS.marginTop + (y1 + ROOM - y) * pixelsPerCm,
    }),
    placeAt: ({ x, y }) => ({
      x: (x - MARGINS.marginLeft) / pixelsPerCm + x0 - ROOM,
      y: y1 + ROOM - (y - MARGINS.marginTop) / pixelsPerCm,
    }),
  };
}

export interface BedFigure {
  /** One of its own on a page: parts of the drawing go by it. */
  name: string;
  bed: BedLayout;
  units: UnitSystem;
  /** How many centimetres of the bed one centimetre of paper shows; a bar shows whether the printer kept to it. */
  paperScale?: number;
}

export function drawBed({ name, bed, units, paperScale }: BedFigure, label: string, stage: Stage): SVGElement {
  const { outline } = bed.plan.bed;
  const scale = bedScale(outline, stage.width);
  const { x0, x1, y0, y1 } = bedBounds(outline);
  const step = roundStep(x1 - x0, units);
  const axis = (name: string, from: number, to: number) =>
    tickedAxis({ name, quantity: "distance", from, to, step, units });
  const drawing = chart(label, stage, {
    ...MARGINS,
    height: scale.height,
    x: { domain: [x0 - ROOM, x1 + ROOM], axis: null },
    y: { domain: [y0 - ROOM, y1 + ROOM], axis: null },
    marks: [
      groundMark(name, bed, scale),
      ...plantMarks(bed),
      potMark(bed, scale),
      ...nameMarks(bed, scale),
      ...pegMarks(bed),
      ...(paperScale ? checkBar(outline, units) : []),
      Plot.axisX({ anchor: "bottom", ...axis("along the bed", x0, x1) }),
      Plot.axisY({ anchor: "left", ...axis("across", y0, y1) }),
    ],
  });
  if (paperScale) fitPaper(drawing, scale, paperScale);
  return drawing;
}

/** Steps of the measured edge, in the person's unit: at most nine along the bed. */
function roundStep(length: number, units: UnitSystem): number {
  const size = fromModel(length, "distance", units);
  return [0.25, 0.5, 1, 2, 5, 10, 20].find((step) => size / step <= 9) ?? 50;
}

type Context = { document: Document };

const SVG = "http://www.w3.org/2000/svg";

function svgNode(document: Document, tag: string, attributes: Record<string, string | number>, ...children: Node[]) {
  const node = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  node.append(...children);
  return node;
}

function outlineNode(
  document: Document,
  outline: BedOutline,
  { project, pixelsPerCm }: BedScale,
  look: Record<string, string | number>,
) {
  if (outline.shape === "circle") {
    const { x, y } = project(centreOf(outline));
    return svgNode(document, "circle", { cx: x, cy: y, r: (pixelsPerCm * outline.diameter) / 2, ...look });
  }
  const points = bedCorners(outline).map(project);
  return svgNode(document, "polygon", { points: points.map(({ x, y }) => `${x},${y}`).join(" "), ...look });
}

/** Circles that overlap are one wet ground, so they are made pale together, and end at the bed's edge. */
function groundMark(name: string, { plan, pots, wetRadius }: BedLayout, scale: BedScale): Plot.Markish {
  const { outline } = plan.bed;
  return (_index, _scales, _values, _dimensions, context) => {
    const { document } = context as unknown as Context;
    const clip = `${name}-edge`;
    const circles = pots.map((pot) => {
      const { x, y } = scale.project(pot);
      return svgNode(document, "circle", { cx: x, cy: y, r: scale.pixelsPerCm * wetRadius, fill: moistureColours[6] });
    });
    return svgNode(
      document,
      "g",
      {},
      svgNode(document, "clipPath", { id: clip }, outlineNode(document, outline, scale, {})),
      outlineNode(document, outline, scale, { fill: moistureColours[0] }),
      svgNode(document, "g", { opacity: 0.55, "clip-path": `url(#${clip})` }, ...circles),
      outlineNode(document, outline, scale, { fill: "none", stroke: ink, "stroke-width": 1.6 }),
    ) as SVGElement;
  };
}

function potMark({ plan, pots, troubles }: BedLayout, scale: BedScale): Plot.Markish {
  const radius = wallRadiusAt(plan.pot, 0);
  const troubled = new Set(troubles.map(({ pot }) => pot));
  return (_index, _scales, _values, _dimensions, context) => {
    const { document } = context as unknown as Context;
    const circles = pots.map((pot, k) => {
      const { x, y } = scale.project(pot);
      const stroke = troubled.has(k) ? { stroke: warning, "stroke-width": 3, "stroke-dasharray": "4 2" } : {};
      return svgNode(document, "circle", { cx: x, cy: y, r: radius * scale.pixelsPerCm, fill: terracotta, ...stroke });
    });
    return svgNode(document, "g", {}, ...circles) as SVGElement;
  };
}

function nameMarks({ pots }: BedLayout, { pixelsPerCm }: BedScale): Plot.Markish[] {
  const fontSize = Math.max(9, Math.min(14, 15 * pixelsPerCm));
  return [
    Plot.text(pots, { x: "x", y: "y", text: (_, k) => String(k + 1), fill: paper, fontWeight: "bold", fontSize }),
  ];
}

function plantMarks({ plants }: BedLayout): Plot.Markish[] {
  return [Plot.dot(plants, { x: "x", y: "y", r: 2.4, fill: "#3f6b1f", stroke: paper, strokeWidth: 0.6 })];
}

function pegMarks({ pegs }: BedLayout): Plot.Markish[] {
  const named = pegs.map((peg, k) => ({ ...peg, name: "AB"[k] }));
  return [
    Plot.dot(named, { x: "x", y: "y", symbol: "times", stroke: ink, strokeWidth: 2, r: 5 }),
    Plot.text(named, { x: "x", y: "y", text: "name", dy: -12, fill: ink, stroke: paper, fontWeight: "bold" }),
  ];
}

/** A bar of known length below the bed, for a ruler. */
function checkBar(outline: BedOutline, units: UnitSystem): Plot.Markish[] {
  const { x0, y0 } = bedBounds(outline);
  const length = units === "us" ? 12 * 2.54 : 50;
  const bar = [{ x1: x0, x2: x0 + length, y: y0 - ROOM * 0.55 }];
  return [
    Plot.ruleY(bar, { x1: "x1", x2: "x2", y: "y", stroke: ink, strokeWidth: 3 }),
    Plot.text(bar, {
      x: "x2",
      y: "y",
      text: [units === "us" ? "1 ft" : "50 cm"],
      dx: 6,
      textAnchor: "start",
      fill: ink,
    }),
  ];
}

/** The largest of these at which the drawing fits a page, of both A4 and Letter. */
const PAPER_SCALES = [5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 500];
const PAGE = { width: 175, height: 225 };

/** How many centimetres of the bed one centimetre of paper shows, margins of the drawing included. */
export function paperScaleOf(outline: BedOutline): number {
  const { width, height, pixelsPerCm } = bedScale(outline, 700);
  const [wide, high] = [width, height].map((pixels) => (pixels / pixelsPerCm) * MM_PER_CM) as [number, number];
  return PAPER_SCALES.find((scale) => wide / scale <= PAGE.width && high / scale <= PAGE.height) ?? 1000;
}

function fitPaper(drawing: SVGElement, { width, height, pixelsPerCm }: BedScale, paperScale: number): void {
  const millimetres = (pixels: number) => `${((pixels / pixelsPerCm) * MM_PER_CM) / paperScale}mm`;
  drawing.setAttribute("width", millimetres(width));
  drawing.setAttribute("height", millimetres(height));
}
