/** How full the first, a middle and the last pot are, minute by minute, and what is left in the tank. */
import * as Plot from "@observablehq/plot";
import { ascending, descending, sort } from "d3-array";
import type { FilledLine } from "../../../model/public/advice.ts";
import { entry, first, last } from "../../../model/public/plan.ts";
import { moistureColours, seriesLooks } from "../../figures/look.ts";
import { bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { minutesWords } from "../../words/lineWords.ts";

/** The look of each line, and where along its rise its name stands: at a share of full, on one side of it. */
const LOOKS = [
  { ...seriesLooks.sand, share: 0.72, beside: { dx: -8, textAnchor: "end" } },
  { ...seriesLooks.loam, share: 0.46, beside: { dx: 8, textAnchor: "start" } },
  { ...seriesLooks.clay, share: 0.22, beside: { dx: 8, textAnchor: "start" } },
] as const;
const ROUND_MINUTES = [1, 2, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1080, 1440];

export function drawFill(filled: FilledLine, capacityLitres: number, label: string, stage: Stage): SVGElement {
  const { course } = filled.filling;
  const end = last(course).minute;
  const lastMinute = ROUND_MINUTES.find((minutes) => minutes >= end - 1e-9) ?? end;
  const tankStart = first(course).tankLitres;
  const tank = course.map(({ minute, tankLitres }) => ({ x: minute, y: (100 * tankLitres) / tankStart }));
  const lines = shownPots(filled).map(({ pot, name }) => ({
    name,
    points: course.map(({ minute, potLitres }) => ({ x: minute, y: (100 * entry(potLitres, pot)) / capacityLitres })),
  }));
  return chart(label, stage, {
    height: Math.min(340, 0.62 * stage.width + 90),
    ...margins(22, 16, 42, 40),
    x: { domain: [0, lastMinute], label: "minutes since the valve was opened", ticks: 6 },
    y: { domain: [0, 112], ticks: [0, 25, 50, 75, 100], grid: true, label: "share of what it holds (%)" },
    marks: [
      Plot.line(tank, { x: "x", y: "y", stroke: moistureColours[8], strokeWidth: 2, strokeDasharray: "1 4" }),
      ...lines.flatMap((line, k) => lineMarks(line, k)),
      wordsAt(first(tank), `tank, ${Math.round(last(tank).y)} % left in the end`, {
        ...bold(moistureColours[8]),
        dx: 8,
        dy: -9,
        textAnchor: "start",
      }),
    ],
  });
}

/** The first, a middle and the last to be full; those never full come last, the one that gets least at the end. */
function shownPots({ filling: { pots } }: FilledLine): { pot: number; name: string }[] {
  const order = sort(
    pots.map(({ minutes, litres }, pot) => ({ pot, minutes, litres })),
    (a, b) => ascending(a.minutes ?? Infinity, b.minutes ?? Infinity) || descending(a.litres, b.litres),
  );
  const places = new Set([0, Math.floor((order.length - 1) / 2), order.length - 1]);
  return order
    .filter((_, place) => places.has(place))
    .map(({ pot, minutes }) => ({
      pot,
      name: `pot ${pot + 1}, ${minutes === null ? "never full" : minutesWords(minutes)}`,
    }));
}

/** Minutes, and the share in per cent. */
interface Point {
  x: number;
  y: number;
}

/** The name stands beside the line as it rises; names of lines that do not come so far stand over each other at its end. */
function lineMarks({ points, name }: { points: Point[]; name: string }, k: number): Plot.Markish[] {
  const { colour, dash, share, beside } = entry(LOOKS, k);
  const place = pointAt(points, 100 * share);
  const atEnd = { dx: 0, dy: -14 * (LOOKS.length - k), textAnchor: "end" } as const;
  return [
    Plot.line(points, { x: "x", y: "y", stroke: colour, strokeWidth: 2.2, strokeDasharray: dash }),
    wordsAt(place ?? last(points), name, { ...bold(colour), ...(place ? beside : atEnd) }),
  ];
}

/** Where a line first reaches a share; null where it does not. */
function pointAt(points: Point[], share: number): Point | null {
  const k = points.findIndex(({ y }) => y >= share);
  if (k <= 0) return k < 0 ? null : first(points);
  const [from, to] = [entry(points, k - 1), entry(points, k)];
  return { x: from.x + ((share - from.y) / (to.y - from.y)) * (to.x - from.x), y: share };
}
