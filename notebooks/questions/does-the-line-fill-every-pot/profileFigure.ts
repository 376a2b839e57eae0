/** Heights along the way to the slowest pot, and how high water would stand in a pipe let upright into it. */
import * as Plot from "@observablehq/plot";
import { max, min } from "d3-array";
import type { Extreme, Profile } from "../../../model/public/advice.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { ink, moistureColours, paper, potWater, terracotta, warning } from "../../figures/look.ts";
import { axisLabel, chart } from "../../figures/plotting.ts";
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
  const outlet = points[0]!;
  const end = points.at(-1)!;
  const [low, top] = [min(points, ({ pipe }) => pipe)!, Math.max(high(tankHead), max(points, ({ pipe }) => pipe)!)];
  const room = 0.14 * (top - low);
  return chart(label, stage, {
    height: Math.min(340, 0.55 * stage.width + 110),
    marginLeft: 46,
    marginRight: 18,
    marginTop: 24,
    marginBottom: 42,
    x: {
      domain: [0, end.x],
      label: axisLabel("length of pipe from the tank", "distance", units),
      ticks: stage.width < 500 ? 5 : 10,
    },
    y: {
      domain: [low - room, top + room],
      label: axisLabel("height above the soil", "length", units),
      ticks: 6,
    },
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
    Plot.text(data, { x: "x", y: "y", text: "text", dy, fill, stroke: paper, fontWeight: "bold" });
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
  const mainEnd = points[1]!;
  const middle = { x: 0.55 * points.at(-1)!.x, y: (points[0]!.head + points[1]!.head) / 2 };
  return [
    Plot.text([points[0]!], {
      x: "x",
      y: "head",
      text: ["full tank"],
      dx: 8,
      dy: -8,
      textAnchor: "start",
      fill: ink,
      stroke: paper,
    }),
    Plot.text([middle], {
      x: "x",
      y: "y",
      text: ["level line: height and pressure"],
      fill: moistureColours[8],
      stroke: paper,
      lineWidth: width < 500 ? 12 : 40,
    }),
    Plot.text([mainEnd], {
      x: ({ x }) => x / 2,
      y: (points[0]!.pipe + mainEnd.pipe) / 2,
      text: ["main"],
      dy: 18,
      fill: terracotta,
      stroke: paper,
      fontWeight: "bold",
    }),
    Plot.text([points.at(-1)!], {
      x: "x",
      y: "pipe",
      text: ["tube’s end"],
      dy: 14,
      textAnchor: "end",
      fill: terracotta,
      stroke: paper,
      fontWeight: "bold",
    }),
  ];
}
