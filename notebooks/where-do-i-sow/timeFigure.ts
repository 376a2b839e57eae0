/** How far moist and soaked soil reach at planting depth, day by day, with the sowing band between them. */
import * as Plot from "@observablehq/plot";
import { fromModel, HAND, type Series, type SowingAdvice, type UnitSystem } from "../../model/index.ts";
import { faint, ink, moistureColours, paper } from "../lib/look.ts";
import type { Stage } from "../lib/notebook.ts";
import { axisLabel, chart } from "../lib/plotting.ts";
import { rulerLength, zoneColours } from "./rulerFigure.ts";

export interface TimeFigure {
  /** Distances from the wall, cm. */
  moist: Series;
  soaked: Series;
  advice: SowingAdvice;
  /** Until this day a starter is watered by hand; null for seeds. */
  handWateredUntil: number | null;
  refillDays: number[];
  units: UnitSystem;
}

/** End of the time axis unless a run is longer: stays put while most sliders move. */
const usualDays = 28;

const soakedColour = moistureColours[9]!;
const moistColour = moistureColours[7]!;

export function drawTime(figure: TimeFigure, label: string, stage: Stage): SVGElement {
  const { moist, soaked, advice, refillDays, units } = figure;
  const length = (cm: number) => fromModel(Math.max(cm, 0), "length", units);
  const lastDay = Math.max(usualDays, moist.day.at(-1)!);
  const top = length(rulerLength);
  return chart(label, stage, {
    height: Math.min(400, Math.max(300, stage.width * 0.6)),
    marginLeft: 44,
    marginRight: 16,
    marginTop: 34,
    marginBottom: 42,
    x: {
      domain: [0, lastDay],
      label: "days after the first filling",
      labelArrow: "none",
      labelAnchor: "center",
      ticks: stage.width < 500 ? 5 : 10,
    },
    y: {
      domain: [0, top],
      label: axisLabel("distance from the pot’s wall", "length", units),
      labelArrow: "none",
      ticks: 6,
    },
    marks: [
      ...bandMarks(figure, length),
      Plot.ruleY([length(HAND)], { stroke: faint, strokeDasharray: "1 4" }),
      Plot.text(["a hand’s width"], {
        x: lastDay,
        y: length(HAND),
        dy: -7,
        textAnchor: "end",
        fill: "#655f52",
        fontSize: 11,
      }),
      ...edgeMarks(moist, length, { colour: moistColour, dash: "", label: "moist enough below this line" }, lastDay),
      ...edgeMarks(soaked, length, { colour: soakedColour, dash: "5 3", label: "soaked below this line" }, lastDay),
      ...(advice.kind === "everywhere"
        ? [
            Plot.text(["moist enough at every distance"], {
              x: 0,
              y: top,
              dy: 12,
              dx: 8,
              textAnchor: "start",
              fill: moistColour,
            }),
          ]
        : []),
      Plot.dot(refillDays, { x: (day: number) => day, y: 0, dy: -5, symbol: "triangle", fill: ink, r: 3.5 }),
      Plot.text(refillDays.slice(0, 1), {
        x: 0,
        y: 0,
        dx: 8,
        dy: -14,
        text: () => "▲ filled",
        textAnchor: "start",
        fontSize: 11,
        stroke: paper,
      }),
    ],
  });
}

function bandMarks({ advice, handWateredUntil }: TimeFigure, length: (cm: number) => number): Plot.Markish[] {
  if (advice.kind !== "band") return [];
  const { sowingDay, until, inner, outer } = advice.band;
  const [y1, y2] = [length(inner), length(outer)];
  const named = { x: (sowingDay + until) / 2, y: (y1 + y2) / 2, text: ["sowing band"], fill: ink };
  const box = (x1: number, x2: number, fill: string) =>
    Plot.rect([0], { x1, x2, y1, y2, fill, stroke: ink, clip: true });
  if (handWateredUntil === null)
    return [box(sowingDay, until, zoneColours.good), Plot.text([0], { ...named, text: () => "sowing band" })];
  return [
    box(sowingDay, handWateredUntil, zoneColours.dry),
    box(handWateredUntil, until, zoneColours.good),
    Plot.text([0], { x: (sowingDay + handWateredUntil) / 2, y: named.y, text: () => "by hand", fontSize: 11 }),
    Plot.text([0], { x: (handWateredUntil + until) / 2, y: named.y, text: () => "on its own", fontSize: 11 }),
  ];
}

interface EdgeLook {
  colour: string;
  dash: string;
  label: string;
}

/** The line, and its name where it reaches highest within the axes. */
function edgeMarks(
  { day, value }: Series,
  length: (cm: number) => number,
  look: EdgeLook,
  lastDay: number,
): Plot.Markish[] {
  const points = day.map((x, i) => ({ x, y: length(value[i]!) }));
  const shown = points.filter(({ y }) => y > 0 && y <= length(rulerLength));
  const place = shown.reduce<{ x: number; y: number } | undefined>(
    (best, each) => (best && best.y >= each.y ? best : each),
    undefined,
  );
  const isLate = place && place.x > lastDay / 2;
  return [
    Plot.line(points, {
      x: "x",
      y: "y",
      stroke: look.colour,
      strokeWidth: 2.2,
      strokeDasharray: look.dash,
      clip: true,
    }),
    ...(place
      ? [
          Plot.text([place], {
            x: "x",
            y: "y",
            text: () => look.label,
            fill: look.colour,
            stroke: paper,
            dy: -9,
            textAnchor: isLate ? "end" : "start",
          }),
        ]
      : []),
  ];
}
