import * as Plot from "@observablehq/plot";
import { sort } from "d3-array";
import { fromModel, type Quantity, type UnitSystem, unitOf } from "../../model/public/units.ts";
import type { Stage } from "../notebook/notebook.ts";
import { ink, paper } from "./look.ts";

/** Headings of axes without arrows, that of a horizontal one under its middle. */
const bare = { labelArrow: "none" } as const;
const centred = { ...bare, labelAnchor: "center" } as const;

/** A chart in the look of the notebooks, one picture with one label for people who cannot see it. */
export function chart(label: string, { document, width }: Stage, { x, y, ...options }: Plot.PlotOptions): SVGElement {
  const style = { color: ink, background: "none", fontFamily: "inherit", fontSize: width < 500 ? "12px" : "13px" };
  const axes = { x: { ...centred, ...x }, y: { ...bare, ...y } };
  const svg = Plot.plot({ width, style, ...axes, ...options, document }) as unknown as SVGElement;
  return mended(svg, label);
}

/** Room about a drawing, pixels, clockwise from above. */
export const margins = (marginTop: number, marginRight: number, marginBottom: number, marginLeft: number) => ({
  marginTop,
  marginRight,
  marginBottom,
  marginLeft,
});

/** Words at one place of a drawing. */
export const wordsAt = ({ x, y }: { x: number; y: number }, text: string, look: Plot.TextOptions) =>
  Plot.text([text], { x, y, ...look });

/** Words that can be read on top of a drawing. */
export const bold = (fill: string) => ({ fill, stroke: paper, fontWeight: "bold" }) as const;

/** Plot names the groups inside the drawing, where a name is not allowed. */
function mended(svg: SVGElement, label: string): SVGElement {
  for (const group of svg.querySelectorAll("[aria-label], [aria-description]")) {
    group.removeAttribute("aria-label");
    group.removeAttribute("aria-description");
  }
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", label);
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  return svg;
}

/** Moves labels at the ends of lines apart, lowest first; `gap` and places in the axis' own unit. */
export function spreadApart<T extends { y: number }>(labels: readonly T[], gap: number): T[] {
  let least = Number.NEGATIVE_INFINITY;
  return sort(labels, ({ y }) => y).map((label) => {
    const y = Math.max(label.y, least);
    least = y + gap;
    return { ...label, y };
  });
}

/** Names beside the ends of lines, each in its line's colour. */
export const endNames = (ends: readonly { name: string; colour: string; y: number }[], look: Plot.TextOptions) =>
  Plot.text(ends, { y: "y", text: "name", fill: "colour", textAnchor: "start", dx: 6, stroke: paper, ...look });

/** Heading of an axis: "depth (in)". */
export const axisLabel = (name: string, quantity: Quantity, units: UnitSystem): string =>
  `${name} (${unitOf(quantity, units)})`;

export interface TickedAxis {
  name: string;
  quantity: Quantity;
  from: number;
  to: number;
  /** Between two ticks, in the person's unit. */
  step: number;
  units: UnitSystem;
}

/** An axis in the model's unit with round values of the person's. */
export const tickedAxis = ({ name, quantity, from, to, step, units }: TickedAxis) => ({
  ...centred,
  label: axisLabel(name, quantity, units),
  ticks: roundTicks(from, to, step, quantity, units),
  tickFormat: (value: number) => String(Number(fromModel(value, quantity, units).toFixed(2))),
});

/** The axis of distances to both sides of a middle: those to the left have no sign. */
export const mirrored = (axis: ReturnType<typeof tickedAxis>) => ({
  ...axis,
  tickFormat: (value: number) => axis.tickFormat(Math.abs(value)),
});

/** Round values of an axis in the person's unit, as places in the model's. */
export function roundTicks(from: number, to: number, step: number, quantity: Quantity, units: UnitSystem): number[] {
  const size = fromModel(1, quantity, units);
  const first = Math.ceil((from * size) / step - 1e-9);
  const last = Math.floor((to * size) / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => ((first + i) * step) / size);
}
