/** How far moist and soaked soil reach at planting depth, day by day, with the sowing band between them. */
import * as Plot from "@observablehq/plot";
import { greatest } from "d3-array";
import { HAND, type Series, type SowingAdvice } from "../../../model/public/advice.ts";
import { entry, last } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, paper } from "../../figures/look.ts";
import { axisLabel, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { rulerLength, zoneColours } from "./rulerFigure.ts";

export interface TimeFigure {
  /** Distances from the wall, cm. */
  moist: Series;
  soaked: Series;
  advice: SowingAdvice;
  /** After planting, for a starter; null for seeds. */
  handWateringDays: number | null;
  refillDays: number[];
  units: UnitSystem;
}

/** End of the time axis unless a run is longer: stays put while most sliders move. */
const usualDays = 28;

const moistColour = moistureColours[7];
const soakedWords = { fill: zoneColours.soaked, stroke: paper, dy: -7, dx: -4, textAnchor: "end" } as const;

export function drawTime(figure: TimeFigure, label: string, stage: Stage): SVGElement {
  const { moist, soaked, advice, refillDays, units } = figure;
  const length = (cm: number) => fromModel(Math.max(cm, 0), "length", units);
  const lastDay = Math.max(usualDays, last(moist.day));
  const top = length(rulerLength);
  return chart(label, stage, {
    height: Math.min(400, Math.max(300, stage.width * 0.6)),
    ...margins(34, 46, 42, 44),
    x: { domain: [0, lastDay], label: "days after the first filling", ticks: stage.width < 500 ? 5 : 10 },
    y: { domain: [0, top], label: axisLabel("distance from the pot’s wall", "length", units), ticks: 6 },
    marks: [
      ...bandMarks(figure, length),
      ...soakedMarks(soaked, length),
      Plot.ruleY([length(HAND)], { stroke: faint, strokeDasharray: "1 4" }),
      Plot.text(["a hand"], { x: lastDay, y: length(HAND), dx: 5, textAnchor: "start", fontSize: 11 }),
      ...moistMarks(moist, length, lastDay),
      ...(advice.kind === "everywhere"
        ? [wordsAt({ x: 0, y: top }, "moist enough at every distance", everywhere)]
        : []),
      Plot.dot(refillDays, { x: identity, y: top, dy: -8, symbol: "triangle", rotate: 180, fill: ink, r: 3.5 }),
      ...refillDays
        .slice(-1)
        .map((x) => wordsAt({ x, y: top }, "filled", { dx: 8, dy: -8, textAnchor: "start", fontSize: 11 })),
    ],
  });
}

const identity = (day: number) => day;
const everywhere = { dy: 12, dx: 8, textAnchor: "start", fill: moistColour } as const;

function bandMarks({ advice, handWateringDays }: TimeFigure, length: (cm: number) => number): Plot.Markish[] {
  if (advice.kind !== "band") return [];
  const { sowingDay, until, inner, outer } = advice.band;
  const [y1, y2] = [length(inner), length(outer)];
  const handWateredUntil = sowingDay + (handWateringDays ?? 0);
  const named = { x: (sowingDay + until) / 2, y: (y1 + y2) / 2, fill: ink };
  const box = (x1: number, x2: number, fill: string) =>
    Plot.rect([0], { x1, x2, y1, y2, fill, stroke: ink, clip: true });
  if (handWateringDays === null)
    return [box(sowingDay, until, zoneColours.good), Plot.text([0], { ...named, text: () => "sowing band" })];
  return [
    box(sowingDay, handWateredUntil, zoneColours.dry),
    box(handWateredUntil, until, zoneColours.good),
    Plot.text([0], { x: (sowingDay + handWateredUntil) / 2, y: named.y, text: () => "by hand", fontSize: 11 }),
    Plot.text([0], { x: (handWateredUntil + until) / 2, y: named.y, text: () => "on its own", fontSize: 11 }),
  ];
}

/** The line, and its name where it reaches farthest within the axes. */
function moistMarks({ day, value }: Series, length: (cm: number) => number, lastDay: number): Plot.Markish[] {
  const points = day.map((x, i) => ({ x, y: length(entry(value, i)) }));
  const place = greatest(
    points.filter(({ y }) => y > 0 && y <= length(rulerLength)),
    ({ y }) => y,
  );
  return [
    Plot.line(points, { x: "x", y: "y", stroke: moistColour, strokeWidth: 2.2, clip: true }),
    Plot.text(place ? [place] : [], {
      x: "x",
      y: "y",
      text: () => "moist enough below this line",
      fill: moistColour,
      stroke: paper,
      dy: -9,
      textAnchor: place && place.x > lastDay / 2 ? "end" : "start",
    }),
  ];
}

/** Named above its highest place; nothing where no soil is ever soaked beyond the wall. */
function soakedMarks({ day, value }: Series, length: (cm: number) => number): Plot.Markish[] {
  const points = day.map((x, i) => ({ x, y: length(entry(value, i)) }));
  const place = greatest(
    points.filter(({ y }) => y > 0),
    ({ y }) => y,
  );
  return [
    Plot.areaY(points, { x: "x", y: "y", fill: zoneColours.soaked, clip: true }),
    ...(place ? [wordsAt({ x: last(day), y: place.y }, "soaked", soakedWords)] : []),
  ];
}
