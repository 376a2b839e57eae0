/** Heights along the way to the slowest pot, and how high water would stand in a pipe let upright into it. */
import * as Plot from "@observablehq/plot";
import type { Extreme, Profile } from "../../../model/public/advice.ts";
import { entry, first, last } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { ink, moistureColours, paper, potWater, terracotta, warning } from "../../figures/look.ts";
import { axisLabel, bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

/** Less of a rise, m, lets air past and water off: our own choice. */
const TOLD_DEPTH = 0.03;

export const toldPlaces = (places: readonly Extreme[]): Extreme[] => places.filter(({ depth }) => depth >= TOLD_DEPTH);

export function drawProfile(profile: Profile, tankHead: number, units: UnitSystem, label: string, stage: Stage) {
  const along = (metres: number) => fromModel(100 * metres, "distance", units);
  const high = (metres: number) => fromModel(100 * metres, "length", units);
  const points = profile.points.map((point) => ({
    x: along(point.along),
    pipe: high(point.height),
    head: high(point.height + point.pressureHead),
  }));
  const outlet = first(points);
  const pipes = points.map(({ pipe }) => pipe);
  const [low, top] = [Math.min(...pipes), Math.max(high(tankHead), ...pipes)];
  const room = 0.14 * (top - low);
  return chart(label, stage, {
    height: Math.min(340, 0.55 * stage.width + 110),
    ...margins(24, 18, 42, 46),
    x: {
      domain: [0, last(points).x],
      label: axisLabel("length of pipe from the tank", "distance", units),
      ticks: stage.width < 500 ? 5 : 10,
    },
    y: { domain: [low - room, top + room], label: axisLabel("height above the soil", "length", units), ticks: 6 },
    marks: [
      Plot.areaY(points, {
        x: "x",
        y1: "pipe",
        y2: ({ pipe, head }) => Math.max(pipe, head),
        fill: potWater,
        fillOpacity: 0.3,
      }),
      Plot.ruleY([0], { stroke: ink, strokeOpacity: 0.35 }),
      Plot.ruleX([outlet], { x: "x", y1: "pipe", y2: high(tankHead), stroke: moistureColours[8], strokeWidth: 5 }),
      Plot.line(points, { x: "x", y: "head", stroke: moistureColours[8], strokeWidth: 2, strokeDasharray: "6 3" }),
      Plot.line(points, { x: "x", y: "pipe", stroke: terracotta, strokeWidth: 3 }),
      ...placeMarks(profile, along, high),
      ...names(points, stage.width),
    ],
  });
}

type Scale = (metres: number) => number;

function placeMarks({ sags, highPoints, underSuction }: Profile, along: Scale, high: Scale): Plot.Markish[] {
  const place = ({ along: s, height }: { along: number; height: number }, text: string) => ({
    x: along(s),
    y: high(height),
    text,
  });
  const lows = toldPlaces(sags).map((sag) => place(sag, "low place"));
  const highs = toldPlaces(highPoints).map((point) => place(point, "high place"));
  const sucked = underSuction.map((point) => place(point, "suction"));
  const name = (data: typeof lows, dy: number, fill: string) =>
    Plot.text(data, { x: "x", y: "y", text: "text", dy, ...bold(fill) });
  return [
    Plot.dot(lows, { x: "x", y: "y", symbol: "triangle", r: 5, fill: ink, dy: 6, rotate: 180 }),
    name(lows, 20, ink),
    Plot.dot(highs, { x: "x", y: "y", symbol: "triangle", r: 5, fill: ink, dy: -6 }),
    name(highs, -20, ink),
    Plot.dot(sucked, { x: "x", y: "y", symbol: "times", stroke: warning, strokeWidth: 2.5, r: 6 }),
    name(sucked, 34, warning),
  ];
}

function names(points: { x: number; pipe: number; head: number }[], width: number): Plot.Markish[] {
  const [outlet, mainEnd, end] = [first(points), entry(points, 1), last(points)];
  const middle = { x: 0.55 * end.x, y: (outlet.head + mainEnd.head) / 2 };
  const inMain = { x: mainEnd.x / 2, y: (outlet.pipe + mainEnd.pipe) / 2 };
  const start = { dx: 8, dy: -8, textAnchor: "start", fill: ink, stroke: paper } as const;
  const level = { fill: moistureColours[8], stroke: paper, lineWidth: width < 500 ? 12 : 40 };
  return [
    wordsAt({ x: outlet.x, y: outlet.head }, "full tank", start),
    wordsAt(middle, "level line: height and pressure", level),
    wordsAt(inMain, "main", { ...bold(terracotta), dy: 18 }),
    wordsAt({ x: end.x, y: end.pipe }, "tube’s end", { ...bold(terracotta), dy: 14, textAnchor: "end" }),
  ];
}
