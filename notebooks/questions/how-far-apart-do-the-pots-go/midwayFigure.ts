/** How hard the ground midway between two pots holds its water, against the distance between them. */
import * as Plot from "@observablehq/plot";
import type { SpacingReading } from "../../../model/public/advice.ts";
import { fromModel, suctionKPa, type UnitSystem } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, paper, warning } from "../../figures/look.ts";
import { axisLabel, bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface MidwayLine {
  name: string;
  colour: string;
  dash: string;
  readings: readonly SpacingReading[];
  /** Largest spacing with easy water midway; null where there is none among those tried. */
  largest: number | null;
}

export interface MidwayFigure {
  lines: MidwayLine[];
  /** Suctions above which the crop starts to suffer, and below which its roots lack air, as pressure heads. */
  limits: { crop: string; easyWaterHead: number; tooWetHead: number };
  /** Largest spacings of eight of ten soils of the name. */
  band: { low: number; high: number } | null;
  /** The plan's own spacing. */
  own: number | null;
  /** What is usual, cm. */
  practice: { from: number; to: number } | null;
  units: UnitSystem;
}

const WIDEST = 130;
const KPA = { least: 0.5, most: 1000 };

export function drawMidway(figure: MidwayFigure, label: string, stage: Stage): SVGElement {
  const { lines, limits, units } = figure;
  const length = (cm: number) => fromModel(cm, "length", units);
  const rule = (head: number, text: string, dy: number) => [
    Plot.ruleY([kPaOf(head)], { stroke: warning, strokeDasharray: "5 3" }),
    Plot.text([text], { x: 0, y: kPaOf(head), dx: 4, dy, textAnchor: "start", fill: warning, stroke: paper }),
  ];
  return chart(label, stage, {
    height: Math.min(400, Math.max(300, stage.width * 0.55)),
    ...margins(28, 16, 44, 50),
    x: {
      domain: [0, length(WIDEST)],
      label: axisLabel("distance from one pot to the next", "length", units),
      ticks: stage.width < 500 ? 6 : 10,
    },
    y: {
      type: "log",
      domain: [KPA.least, KPA.most],
      label: "suction midway (kPa), drier upwards",
      ticks: [1, 10, 100, 1000],
      tickFormat: (value: number) => String(value),
      grid: true,
    },
    marks: [
      ...bandMarks(figure, length),
      ...rule(limits.easyWaterHead, `${limits.crop} starts to suffer`, -8),
      ...rule(limits.tooWetHead, "roots lack air", 10),
      ...lines.flatMap((line, k) => lineMarks(line, lines.length - 1 - k, limits.easyWaterHead, length)),
      ...ownMarks(figure, length),
    ],
  });
}

const kPaOf = (head: number) => Math.min(Math.max(suctionKPa(Math.min(head, 0)), KPA.least), KPA.most);

function lineMarks(
  { name, colour, dash, readings, largest }: MidwayLine,
  place: number,
  head: number,
  length: (cm: number) => number,
) {
  const points = readings
    .filter(({ spacing }) => spacing <= WIDEST)
    .map(({ spacing, midwayHead }) => ({ x: length(spacing), y: kPaOf(midwayHead) }));
  const crossing = largest === null ? [] : [{ x: length(largest), y: kPaOf(head) }];
  return [
    Plot.line(points, { x: "x", y: "y", stroke: colour, strokeDasharray: dash, strokeWidth: 2.2, clip: true }),
    Plot.dot(crossing, { x: "x", y: "y", r: 4.5, fill: colour, stroke: paper }),
    // Lines cross the limit near to each other: their names stand one below the other.
    ...(crossing.length > 0 ? crossing : points.slice(-1)).map((end) =>
      wordsAt(end, name, { ...bold(colour), textAnchor: "start", dx: 8, dy: 14 + 16 * place }),
    ),
  ];
}

function bandMarks({ band, practice }: MidwayFigure, length: (cm: number) => number): Plot.Markish[] {
  const y = KPA.least * 1.25;
  const box = ({ low, high }: NonNullable<typeof band>) => [
    Plot.rect([0], { x1: length(low), x2: length(high), y1: KPA.least, y2: KPA.most, ...pale }),
    wordsAt({ x: length((low + high) / 2), y: KPA.most }, "8 of 10 soils", { dy: -10, fill: ink }),
  ];
  const bar = ({ from, to }: NonNullable<typeof practice>) => [
    Plot.ruleY([y], { x1: length(from), x2: length(to), stroke: faint, strokeWidth: 4 }),
    wordsAt({ x: length((from + to) / 2), y }, "common practice", { dy: -10, fill: ink, stroke: paper }),
  ];
  return [...(band ? box(band) : []), ...(practice ? bar(practice) : [])];
}

const pale = { fill: moistureColours[4], fillOpacity: 0.3 };

function ownMarks({ own }: MidwayFigure, length: (cm: number) => number): Plot.Markish[] {
  if (own === null || own > WIDEST) return [];
  return [
    Plot.ruleX([length(own)], { stroke: ink, strokeDasharray: "2 3" }),
    wordsAt({ x: length(own), y: KPA.most }, "your plan", {
      dx: 5,
      dy: 14,
      textAnchor: "start",
      fill: ink,
      stroke: paper,
    }),
  ];
}
