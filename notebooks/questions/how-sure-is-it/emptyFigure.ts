/** The share of soils in which the pot still holds water, day by day. */
import * as Plot from "@observablehq/plot";
import { sort } from "d3-array";
import type { Emptying } from "../../../model/public/ensemble.ts";
import { faint, ink, moistureColours, paper } from "../../figures/look.ts";
import { chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { roughDays } from "../../words/bandWords.ts";

export interface EmptyFigure {
  /** Of the soils that are solved; null: not within the days watched. */
  emptyDays: readonly (number | null)[];
  emptying: Extract<Emptying, { kind: "days" }>;
  /** What stands at the end of the watch: "next filling". */
  endWords: string;
}

const colour = moistureColours[8];

export function drawEmptying({ emptyDays, emptying, endWords }: EmptyFigure, stage: Stage): SVGElement {
  const { watched } = emptying;
  const steps = stillHolding(emptyDays, watched);
  return chart("Share of soils in which the pot still holds water, against days after it was filled", stage, {
    height: Math.min(340, Math.max(260, stage.width * 0.48)),
    ...margins(20, stage.width < 500 ? 78 : 92, 42, 44),
    x: { domain: [0, watched], label: "days after filling", ticks: 6 },
    y: { domain: [0, 100], label: "pot not yet empty (% of soils)", ticks: 5, grid: true },
    marks: [
      Plot.areaY(steps, {
        x: "day",
        y1: 0,
        y2: "share",
        curve: "step-after",
        fill: moistureColours[4],
        fillOpacity: 0.5,
      }),
      Plot.line(steps, { x: "day", y: "share", curve: "step-after", stroke: colour, strokeWidth: 2 }),
      Plot.ruleX([watched], { stroke: faint, strokeDasharray: "2 3" }),
      Plot.text([endWords], { x: watched, y: 100, dx: 5, dy: 6, textAnchor: "start" }),
      ...toldMarks(emptying),
    ],
  });
}

interface Step {
  day: number;
  share: number;
}

function stillHolding(emptyDays: readonly (number | null)[], watched: number): Step[] {
  const days = sort(emptyDays.filter((day) => day !== null));
  const share = (empty: number) => (100 * (emptyDays.length - empty)) / emptyDays.length;
  return [
    { day: 0, share: 100 },
    ...days.map((day, k) => ({ day, share: share(k + 1) })),
    { day: watched, share: share(days.length) },
  ];
}

/** When one in ten, half and nine in ten are empty, as far as they are within the watch. */
function toldMarks({ low, median, high }: EmptyFigure["emptying"]): Plot.Markish[] {
  const told = [
    { day: low, share: 90 },
    { day: median, share: 50 },
    { day: high, share: 10 },
  ].filter((step): step is Step => step.day !== null);
  return [
    Plot.dot(told, { x: "day", y: "share", fill: colour, r: 4 }),
    Plot.text(told, {
      x: "day",
      y: "share",
      text: ({ day }: Step) => roughDays(day),
      textAnchor: "start",
      dx: 8,
      dy: -8,
      fill: ink,
      stroke: paper,
    }),
  ];
}
