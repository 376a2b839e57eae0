/** Every bed's answer against the number that it goes with most. */
import * as Plot from "@observablehq/plot";
import { extent } from "d3-array";
import type { Band } from "../../../model/public/ensemble.ts";
import { faint, ink, paper } from "../../figures/look.ts";
import { chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { isBeyond } from "./lookedAt.ts";

export interface Scatter {
  /** In the person's units; an answer may be beyond what was watched. */
  dots: { x: number; y: number }[];
  /** All that were drawn, those still to come included. */
  drawn: readonly number[];
  fifths: (Band & { from: number; to: number })[];
  all: Band;
  x: { label: string; isLog: boolean };
  y: { label: string; beyondWords: string };
}

const spreadColour = "#e9dfc8";
const fifthColour = "#53a4a0";

export function drawBeds({ dots, drawn, fifths, all, x, y }: Scatter, label: string, stage: Stage): SVGElement {
  const top = roundedUp(Math.max(0, ...dots.filter((dot) => !isBeyond(dot.y)).map((dot) => dot.y)));
  const within = (value: number) => Math.min(value, top);
  const heights = { y1: ({ low }: Band) => within(low), y2: ({ high }: Band) => within(high) };
  const far = dots.filter((dot) => isBeyond(dot.y));
  const [from, to] = extent(drawn) as [number, number];
  return chart(label, stage, {
    height: Math.min(400, Math.max(320, 0.55 * stage.width)),
    ...margins(far.length > 0 ? 56 : 36, 16, 42, 48),
    x: {
      type: x.isLog ? "log" : "linear",
      domain: [from, to],
      nice: !x.isLog,
      ticks: 5,
      ...(x.isLog && { tickFormat: roundOnly }),
      label: x.label,
    },
    y: { domain: [0, top], label: y.label, ticks: 6, grid: true },
    marks: [
      Plot.rect([all], { x1: from, x2: to, ...heights, fill: spreadColour }),
      Plot.rect(fifths, {
        x1: "from",
        x2: "to",
        ...heights,
        fill: fifthColour,
        fillOpacity: 0.45,
        insetLeft: 1,
        insetRight: 1,
      }),
      Plot.dot(dots, {
        x: "x",
        y: ({ y }) => within(y),
        filter: ({ y }) => !isBeyond(y),
        r: 2.2,
        fill: ink,
        fillOpacity: 0.55,
      }),
      Plot.dot(far, { x: "x", y: top, r: 3, symbol: "triangle", stroke: ink, strokeOpacity: 0.7, dy: -8, clip: false }),
      Plot.ruleY([0], { stroke: faint }),
      Plot.ruleY(fifths, { x1: "from", x2: "to", y: (band: Band) => within(band.median), stroke: ink, strokeWidth: 2 }),
      ...(far.length > 0
        ? [Plot.text([`△ ${y.beyondWords}`], { frameAnchor: "top-right", dy: -27, fill: ink, stroke: paper })]
        : []),
    ],
  });
}

/** Only 1, 2, 5, 10, 20, … stand at a log axis, so that they do not crowd it. */
const roundOnly = (value: number): string => (/^[0.]*[125]0*$/.test(String(value)) ? String(value) : "");

/** The next of a few round numbers, so that the axis seldom moves while beds arrive. */
function roundedUp(value: number): number {
  if (value <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  return power * ([1, 1.5, 2, 3, 4, 5, 6, 8].find((step) => value <= step * power) ?? 10);
}
