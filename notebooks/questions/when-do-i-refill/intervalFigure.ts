/** The share of their thirst that plants get met, against the days between refills. */
import * as Plot from "@observablehq/plot";
import { ENOUGH, type IntervalRange, type IntervalShare } from "../../../model/public/advice.ts";
import { ink, moistureColours, paper, warning } from "../../figures/look.ts";
import { bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { wholePercent } from "./refillWords.ts";

export interface IntervalFigure {
  tried: IntervalShare[];
  carrying: IntervalRange | null;
  /** The plan's own refills after its first fortnight; null where it has none, or where they are not known yet. */
  own: IntervalShare | null;
}

const LONGEST_SHOWN = 15;
const pale = { fill: moistureColours[4], fillOpacity: 0.28 };
const colour = moistureColours[8];
const enoughWords = { dy: -8, textAnchor: "end", fill: warning, stroke: paper } as const;

export function drawIntervals({ tried, carrying, own }: IntervalFigure, label: string, stage: Stage): SVGElement {
  const points = tried.map(({ days, share }) => ({ days, share: 100 * share }));
  const isNarrow = stage.width < 500;
  return chart(label, stage, {
    height: Math.min(360, Math.max(280, stage.width * 0.5)),
    ...margins(40, 18, 44, 46),
    x: {
      domain: [0, LONGEST_SHOWN],
      label: "days between refills",
      ticks: isNarrow ? tried.map(({ days }) => days).filter((days) => days !== 4) : tried.map(({ days }) => days),
    },
    y: { domain: [0, 100], label: "share of the plants’ thirst that is met (%)", ticks: 5, grid: true },
    marks: [
      ...carryingMarks(carrying),
      Plot.ruleY([100 * ENOUGH], { stroke: warning, strokeDasharray: "5 3" }),
      wordsAt({ x: LONGEST_SHOWN, y: 100 * ENOUGH }, `${100 * ENOUGH} %: enough`, enoughWords),
      Plot.line(points, { x: "days", y: "share", stroke: colour, strokeOpacity: 0.5 }),
      Plot.dot(points, { x: "days", y: "share", fill: colour, r: 4.5 }),
      ...weeklyMarks(points, own),
      ...ownMarks(own),
    ],
  });
}

function carryingMarks(carrying: IntervalRange | null): Plot.Markish[] {
  if (!carrying) return [];
  const { shortest, longest } = carrying;
  return [
    Plot.rect([0], { x1: Math.max(shortest - 0.4, 0), x2: longest + 0.4, y1: 0, y2: 100, ...pale }),
    Plot.text(["carries"], { x: (shortest + longest) / 2, y: 0, dy: -10, fill: ink }),
  ];
}

/** Named above the falling line, or below it where the star's name stands there. */
function weeklyMarks(points: { days: number; share: number }[], own: IntervalShare | null): Plot.Markish[] {
  const weekly = points.filter(({ days }) => days === 7);
  const isBelow = weekly.some(({ share }) => share > 80) || (own !== null && own.days > 5.5 && own.days < 9);
  return [
    Plot.text(weekly, {
      x: "days",
      y: "share",
      text: ({ share }: { share: number }) => `weekly: ${wholePercent(share / 100)} %`,
      ...(isBelow ? { textAnchor: "end" as const, dx: -6, dy: 13 } : { textAnchor: "start" as const, dx: 8, dy: -9 }),
      fill: ink,
      stroke: paper,
    }),
  ];
}

function ownMarks(own: IntervalShare | null): Plot.Markish[] {
  if (!own || own.days > LONGEST_SHOWN) return [];
  const place = { x: own.days, y: 100 * own.share };
  const side = own.days > 12 ? ({ textAnchor: "end", dx: 6 } as const) : ({ textAnchor: "start", dx: 9 } as const);
  return [
    Plot.dot([place], { x: "x", y: "y", symbol: "star", r: 7, fill: ink, stroke: paper }),
    wordsAt(place, "your bed", { ...bold(ink), ...side, dy: -12 }),
  ];
}
