/** Holding water and passing water, each against suction. */
import * as Plot from "@observablehq/plot";
import { range } from "d3-array";
import type { Soil } from "../../../model/public/flow.ts";
import { fromModel, headOfSuction, type UnitSystem } from "../../../model/public/units.ts";
import { paper, seriesLooks } from "../../figures/look.ts";
import { axisLabel, chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface Curve {
  name: string;
  look: keyof typeof seriesLooks;
  soil: Soil;
}

/** Suctions drawn, kPa, evenly in their logarithm; fixed, as the other axis is. */
const suctions = range(-1, 3.2001, 0.05).map((power) => 10 ** power);

/** Beside each other where there is room, else one above the other. */
export function drawCurvePair(curves: Curve[], units: UnitSystem, { document, width }: Stage): SVGElement {
  const isBeside = width >= 560;
  const stage = { document, width: isBeside ? Math.floor(width / 2) : width };
  const both = [drawHolding(curves, stage), drawPassing(curves, units, stage)];
  const svg = document.createElementNS(SVG, "svg");
  const height = isBeside ? drawnHeight : 2 * drawnHeight;
  const attributes = { xmlns: SVG, width, height, viewBox: `0 0 ${width} ${height}`, role: "img" };
  for (const [name, value] of Object.entries(attributes)) svg.setAttribute(name, String(value));
  svg.setAttribute("aria-label", both.map((each) => each.getAttribute("aria-label")).join("; "));
  both.forEach((each, i) => {
    each.setAttribute(isBeside ? "x" : "y", String(i * (isBeside ? stage.width : drawnHeight)));
    for (const name of ["role", "aria-label"]) each.removeAttribute(name);
  });
  svg.append(...both);
  return svg;
}

const SVG = "http://www.w3.org/2000/svg";
const drawnHeight = 320;

function drawHolding(curves: Curve[], stage: Stage): SVGElement {
  return drawCurves(curves, stage, {
    title: "Holding water: soil moisture against suction",
    value: ({ theta }, h) => 100 * theta(h),
    labelSuction: { sand: 0.6, loam: 4, clay: 60, own: 400 },
    y: { domain: [0, 60], label: "soil moisture (% of volume)", grid: true },
  });
}

function drawPassing(curves: Curve[], units: UnitSystem, stage: Stage): SVGElement {
  return drawCurves(curves, stage, {
    title: "Passing water: conductivity against suction",
    value: ({ K }, h) => fromModel(K(h), "conductivity", units),
    labelSuction: { sand: 0.5, loam: 2, clay: 0.2, own: 30 },
    y: {
      type: "log",
      domain: [1e-6, 1e3],
      ticks: [1e-6, 1e-4, 1e-2, 1, 100],
      tickFormat: plainNumber,
      label: axisLabel("conductivity", "conductivity", units),
      grid: true,
    },
  });
}

const plainNumber = (value: number): string =>
  value >= 0.01 ? String(Number(value.toPrecision(2))) : `1 / ${Math.round(1 / value).toLocaleString("en")}`;

interface Look {
  title: string;
  value(soil: Soil, h: number): number;
  /** Where each curve's name stands, kPa. */
  labelSuction: Record<Curve["look"], number>;
  y: Plot.ScaleOptions;
}

function drawCurves(curves: Curve[], stage: Stage, { title, value, labelSuction, y }: Look): SVGElement {
  const least = y.type === "log" ? 1e-6 : 0;
  const at = (soil: Soil, kPa: number) => ({ kPa, value: value(soil, headOfSuction(kPa)) });
  return chart(title, stage, {
    height: drawnHeight,
    ...margins(20, 16, 40, y.type === "log" ? 92 : 44),
    x: {
      type: "log",
      domain: [0.1, 1500],
      ticks: [0.1, 1, 10, 100, 1000],
      tickFormat: (kPa: number) => String(kPa),
      label: "suction (kPa): wet left, dry right",
    },
    y,
    marks: [
      ...curves.map(({ look, soil }) =>
        Plot.line(
          suctions.map((kPa) => at(soil, kPa)).filter((point) => point.value >= least),
          {
            x: "kPa",
            y: "value",
            stroke: seriesLooks[look].colour,
            strokeDasharray: seriesLooks[look].dash,
            strokeWidth: look === "own" ? 2.6 : 1.8,
            clip: true,
          },
        ),
      ),
      ...curves.map(({ name, look, soil }) =>
        Plot.text([at(soil, labelSuction[look])], {
          x: "kPa",
          y: "value",
          text: [name],
          fill: seriesLooks[look].colour,
          stroke: paper,
          strokeWidth: 5,
          textAnchor: "start",
          dx: 7,
          dy: -7,
        }),
      ),
    ],
  });
}
