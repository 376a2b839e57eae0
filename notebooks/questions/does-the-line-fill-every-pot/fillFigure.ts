/** How full the first, a middle and the last pot are, minute by minute, and what is left in the tank. */
import * as Plot from "@observablehq/plot";
import { ascending } from "d3-array";
import type { FilledLine } from "../../../model/public/advice.ts";
import { moistureColours, paper, seriesLooks } from "../../figures/look.ts";
import { chart } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { minutesWords } from "../../words/lineWords.ts";

const looks = [seriesLooks.sand, seriesLooks.loam, seriesLooks.clay];
/** Where along its rise each line is named, as a share of full, and on which side of it. */
const named = [
  { share: 0.72, dx: -8, textAnchor: "end" },
  { share: 0.46, dx: 8, textAnchor: "start" },
  { share: 0.22, dx: 8, textAnchor: "start" },
] as const;
const ROUND_MINUTES = [1, 2, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1080, 1440];

export function drawFill(filled: FilledLine, capacityLitres: number, label: string, stage: Stage): SVGElement {
  const { course } = filled.filling;
  const end = course.at(-1)!.minute;
  const last = ROUND_MINUTES.find((minutes) => minutes >= end - 1e-9) ?? end;
  const tankStart = course[0]!.tankLitres;
  const tank = course.map(({ minute, tankLitres }) => ({ minute, share: (100 * tankLitres) / tankStart }));
  const lines = shownPots(filled).map(({ pot, name }, k) => ({
    look: looks[k]!,
    name,
    points: course.map(({ minute, potLitres }) => ({ minute, share: (100 * potLitres[pot]!) / capacityLitres })),
  }));
  return chart(label, stage, {
    height: Math.min(340, 0.62 * stage.width + 90),
    marginLeft: 40,
    marginRight: 16,
    marginTop: 22,
    marginBottom: 42,
    x: {
      domain: [0, last],
      label: "minutes since the valve was opened",
      ticks: 6,
    },
    y: {
      domain: [0, 112],
      ticks: [0, 25, 50, 75, 100],
      grid: true,
      label: "share of what it holds (%)",
    },
    marks: [
      Plot.line(tank, { x: "minute", y: "share", stroke: moistureColours[8], strokeWidth: 2, strokeDasharray: "1 4" }),
      ...lines.flatMap(({ look, points, name }, k) => [
        Plot.line(points, {
          x: "minute",
          y: "share",
          stroke: look.colour,
          strokeWidth: 2.2,
          strokeDasharray: look.dash,
        }),
        nameMark(points, name, look.colour, k),
      ]),
      Plot.text([tank[0]!], {
        x: "minute",
        y: "share",
        text: [`tank, ${Math.round(tank.at(-1)!.share)} % left in the end`],
        dx: 8,
        dy: -9,
        textAnchor: "start",
        fill: moistureColours[8],
        stroke: paper,
        fontWeight: "bold",
      }),
    ],
  });
}

/** The first, a middle and the last to be full; those never full come last, the one that gets least at the end. */
export function shownPots({ filling: { pots } }: FilledLine): { pot: number; name: string }[] {
  const order = pots
    .map((_, pot) => pot)
    .sort(
      (a, b) =>
        ascending(pots[a]!.minutes ?? Number.POSITIVE_INFINITY, pots[b]!.minutes ?? Number.POSITIVE_INFINITY) ||
        ascending(-pots[a]!.litres, -pots[b]!.litres),
    );
  const places = [...new Set([0, Math.floor((order.length - 1) / 2), order.length - 1])];
  return places.map((place) => {
    const pot = order[place]!;
    const { minutes } = pots[pot]!;
    return { pot, name: `pot ${pot + 1}, ${minutes === null ? "never full" : minutesWords(minutes)}` };
  });
}

interface CoursePoint {
  minute: number;
  share: number;
}

/** Beside the line as it rises; names of lines that do not come so far stand over each other at its end. */
function nameMark(points: CoursePoint[], name: string, fill: string, k: number): Plot.Markish {
  const { share, ...beside } = named[k]!;
  const point = pointAt(points, 100 * share);
  const place = point
    ? { ...point, offset: beside }
    : { ...points.at(-1)!, offset: { dx: 0, dy: -14 * (named.length - k), textAnchor: "end" } as const };
  return Plot.text([place], {
    x: "minute",
    y: "share",
    text: [name],
    ...place.offset,
    fill,
    stroke: paper,
    fontWeight: "bold",
  });
}

/** Where a line first reaches a share; null where it does not. */
function pointAt(points: CoursePoint[], share: number): CoursePoint | null {
  const k = points.findIndex((point) => point.share >= share);
  if (k < 0) return null;
  if (k === 0) return points[0]!;
  const [from, to] = [points[k - 1]!, points[k]!];
  const part = (share - from.share) / (to.share - from.share);
  return { minute: from.minute + part * (to.minute - from.minute), share };
}
