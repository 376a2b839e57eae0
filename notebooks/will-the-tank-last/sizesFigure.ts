/** In what share of years roofs and tanks of all sizes carry the bed. */
import * as Plot from "@observablehq/plot";
import { range } from "d3-array";
import { fromModel, type ReliabilityGrid, type UnitSystem } from "../../model/index.ts";
import { ink, moistureColours, paper } from "../lib/look.ts";
import type { Stage } from "../lib/notebook.ts";
import { axisLabel, chart } from "../lib/plotting.ts";

export interface SizesFigure {
  grid: ReliabilityGrid;
  /** cm², litres. */
  own: { roofArea: number; litres: number };
  units: UnitSystem;
}

/** Shares of years along which lines run. */
export const LINES = [0.5, 0.8, 0.9, 0.95];
const FILLS = [moistureColours[0]!, moistureColours[2]!, moistureColours[4]!, moistureColours[5]!, moistureColours[6]!];

export function drawSizes({ grid, own, units }: SizesFigure, label: string, stage: Stage): SVGElement {
  const roofOf = (cm2: number) => fromModel(cm2, "area", units);
  const tankOf = (litres: number) => fromModel(litres, "volume", units);
  const [x1, x2] = [roofOf(grid.roofs[0]!), roofOf(grid.roofs.at(-1)!)];
  const [y1, y2] = [tankOf(grid.tanks[0]!), tankOf(grid.tanks.at(-1)!)];
  const mine = [{ x: clamp(roofOf(own.roofArea), x1, x2), y: clamp(tankOf(own.litres), y1, y2) }];
  const place = {
    width: grid.roofs.length,
    height: grid.tanks.length,
    x1,
    x2,
    y1,
    y2,
    value: (share: number) => share,
  };
  return chart(label, stage, {
    height: Math.max(300, Math.min(420, stage.width * 0.62)),
    marginLeft: 62,
    marginRight: 92,
    marginTop: 26,
    marginBottom: 44,
    x: { type: "log", domain: [x1, x2], label: axisLabel("roof", "area", units), ...logAxis(x1, x2) },
    y: { type: "log", domain: [y1, y2], label: axisLabel("tank", "volume", units), ...logAxis(y1, y2) },
    color: { type: "threshold", domain: LINES, range: FILLS },
    marks: [
      Plot.contour(grid.share, {
        ...place,
        fill: (share: number) => share,
        thresholds: [-1, ...LINES],
        stroke: ink,
        strokeWidth: 0.7,
      }),
      Plot.frame({ stroke: ink }),
      Plot.text(lineEnds(grid), {
        x: x2,
        y: ({ litres }: LineEnd) => tankOf(litres),
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

const clamp = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);

/** Round numbers: 1, 2 and 5 of each power of ten. */
function logAxis(from: number, to: number) {
  const powers = range(Math.floor(Math.log10(from)), Math.ceil(Math.log10(to)) + 1);
  const ticks = powers.flatMap((power) => [1, 2, 5].map((digit) => digit * 10 ** power));
  return {
    ticks: ticks.filter((tick) => tick >= from * 0.999 && tick <= to * 1.001),
    tickFormat: (value: number) => value.toLocaleString("en-GB"),
    labelArrow: "none" as const,
    labelAnchor: "center" as const,
  };
}

interface LineEnd {
  share: number;
  litres: number;
}

/** Where lines meet the right side, the largest roof; those that meet it too near another go unnamed. */
function lineEnds({ roofs, tanks, share }: ReliabilityGrid): LineEnd[] {
  const last = tanks.map((_, row) => share[(row + 1) * roofs.length - 1]!);
  const ends = LINES.flatMap((line) => {
    const k = last.findIndex((value) => value >= line);
    if (k <= 0) return [];
    const part = (line - last[k - 1]!) / (last[k]! - last[k - 1]!);
    return [{ share: line, litres: tanks[k - 1]! * (tanks[k]! / tanks[k - 1]!) ** part }];
  });
  return ends.filter((end, k) => ends.slice(k + 1).every((next) => next.litres / end.litres > APART));
}

const APART = 1.22;
