/** In what share of years roofs and tanks of all sizes carry the bed. */
import * as Plot from "@observablehq/plot";
import { range } from "d3-array";
import type { ReliabilityGrid } from "../../../model/public/advice.ts";
import { entry, first, last, pairAt } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { ink, moistureColours, paper } from "../../figures/look.ts";
import { axisLabel, chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface SizesFigure {
  grid: ReliabilityGrid;
  /** cm², litres. */
  own: { roofArea: number; litres: number };
  units: UnitSystem;
}

/** Shares of years along which lines run. */
export const LINES = [0.5, 0.8, 0.9, 0.95];
const FILLS = [moistureColours[0], moistureColours[2], moistureColours[4], moistureColours[5], moistureColours[6]];

export function drawSizes({ grid, own, units }: SizesFigure, label: string, stage: Stage): SVGElement {
  const roofAt = (cm2: number) => Math.log10(fromModel(cm2, "area", units));
  const tankAt = (litres: number) => Math.log10(fromModel(litres, "volume", units));
  const [x, y] = [axisOf(grid.roofs.map(roofAt)), axisOf(grid.tanks.map(tankAt))];
  const mine = [{ x: x.within(roofAt(own.roofArea)), y: y.within(tankAt(own.litres)) }];
  return chart(label, stage, {
    height: Math.max(300, Math.min(420, stage.width * 0.62)),
    ...margins(26, 92, 44, 62),
    x: { domain: x.domain, label: axisLabel("roof", "area", units), ...x.ticks },
    y: { domain: y.domain, label: axisLabel("tank", "volume", units), ...y.ticks },
    color: { type: "threshold", domain: LINES, range: FILLS },
    marks: [
      Plot.contour(grid.share, {
        ...{ width: grid.roofs.length, x1: x.edges[0], x2: x.edges[1] },
        ...{ height: grid.tanks.length, y1: y.edges[0], y2: y.edges[1] },
        ...{ fill: (share: number) => share, thresholds: [-1, ...LINES], stroke: ink, strokeWidth: 0.7, clip: true },
      }),
      Plot.frame({ stroke: ink }),
      Plot.text(lineEnds(grid), {
        x: x.domain[1],
        y: ({ litres }: LineEnd) => tankAt(litres),
        text: ({ share }: LineEnd) => `${Math.round(100 * share)} of 100`,
        textAnchor: "start",
        dx: 6,
        fill: ink,
      }),
      Plot.dot(mine, { x: "x", y: "y", symbol: "star", r: 8, fill: ink, stroke: paper }),
      Plot.text(mine, { x: "x", y: "y", text: ["yours"], dy: -14, fill: ink, stroke: paper, fontWeight: "bold" }),
    ],
  });
}

/** An axis of logarithms. Each sample of a contour stands in the middle of its cell, so half a step lies beyond either end. */
function axisOf(samples: number[]) {
  const [from, to] = [first(samples), last(samples)];
  const half = (to - from) / (samples.length - 1) / 2;
  const powers = range(Math.floor(from), Math.ceil(to) + 1);
  const round = powers.flatMap((power) => [1, 2, 5].map((digit) => power + Math.log10(digit)));
  return {
    domain: [from, to] as [number, number],
    edges: [from - half, to + half] as const,
    within: (value: number) => Math.min(Math.max(value, from), to),
    ticks: {
      ticks: round.filter((tick) => tick >= from && tick <= to),
      tickFormat: (tick: number) => Math.round(10 ** tick).toLocaleString("en-GB"),
      labelAnchor: "center" as const,
    },
  };
}

interface LineEnd {
  share: number;
  litres: number;
}

/** Where lines meet the right side, the largest roof; those that meet it too near another go unnamed. */
function lineEnds({ roofs, tanks, share }: ReliabilityGrid): LineEnd[] {
  const atSide = tanks.map((_, row) => entry(share, (row + 1) * roofs.length - 1));
  const ends = LINES.flatMap((line) => {
    const k = atSide.findIndex((value) => value >= line);
    if (k <= 0) return [];
    const [[below, above], [small, large]] = [pairAt(atSide, k), pairAt(tanks, k)];
    return [{ share: line, litres: small * (large / small) ** ((line - below) / (above - below)) }];
  });
  return ends.filter((end, k) => ends.slice(k + 1).every((next) => next.litres / end.litres > APART));
}

const APART = 1.22;
