/** The line over the bed seen from above, to scale: pipes as wide as their flow, pots as dark as they are late. */
import * as Plot from "@observablehq/plot";
import { extent, max, range } from "d3-array";
import {
  type BedOutline,
  bedCorners,
  centreOf,
  distanceBetween,
  format,
  fromModel,
  type Place,
  potJoints,
  type UnitSystem,
  unitOf,
  wallRadiusAt,
} from "../../model/index.ts";
import { faint, ink, moistureColours, paper, terracotta } from "../lib/look.ts";
import type { Stage } from "../lib/notebook.ts";
import { chart } from "../lib/plotting.ts";
import type { FilledLine } from "./filledLine.ts";
import { minutesNumber } from "./lineWords.ts";

/** Room about the bed, cm, and about all that is drawn; how much of a long main is drawn; the tank's half width. */
const ROOM = 12;
const MAIN_SHOWN = 70;
const TANK = 27;
const WIDEST = 7;
const NARROWEST = 1.2;
/** Pixels between pots from which on each has its minutes; radius from which on they stand in it. */
const ROOM_FOR_NUMBERS = 24;
const ROOM_FOR_MINUTES = 7.5;

const neverColour = "#9a2a12";

export function drawLine(filled: FilledLine, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const view = viewOf(filled, stage.width);
  return chart(label, stage, {
    margin: 0,
    height: view.height,
    x: { domain: view.x, range: [0, stage.width], axis: null },
    y: { domain: view.y, range: [view.height, 0], axis: null },
    marks: [
      Plot.line(outlineOf(filled.plan.bed.outline), {
        x: "x",
        y: "y",
        fill: moistureColours[0]!,
        stroke: ink,
        strokeWidth: 1.4,
      }),
      ...jointMarks(filled),
      ...pipeMarks(filled, view),
      ...tankMarks(filled, view, units),
      ...potMarks(filled, view),
      ...scaleMarks(view, units),
    ],
  });
}

interface View {
  x: [number, number];
  y: [number, number];
  height: number;
  pixelsPerCm: number;
  /** Where the main begins on the drawing; a long one is cut. */
  mainFrom: Place;
  tank: Place;
  isCut: boolean;
}

/** Of the bed, the tank and what is drawn of the main: pipes' bores and heights move nothing. */
function viewOf({ plan, filling }: FilledLine, width: number): View {
  const { from, to } = filling.bedLine.ways[0]!;
  const length = distanceBetween(from, to);
  const shown = Math.min(length, MAIN_SHOWN + outsideOf(plan.bed.outline, from, to));
  const towards = (distance: number): Place => ({
    x: to.x + ((from.x - to.x) * distance) / length,
    y: to.y + ((from.y - to.y) * distance) / length,
  });
  const mainFrom = towards(shown);
  const tank = towards(shown + TANK);
  const corners = [-1, 1].flatMap((side) => ({ x: tank.x + side * TANK, y: tank.y + side * TANK }));
  const drawn = [...outlineOf(plan.bed.outline), ...corners];
  const [x0, x1] = extent(drawn, ({ x }) => x) as [number, number];
  const [y0, y1] = extent(drawn, ({ y }) => y) as [number, number];
  const pixelsPerCm = width / (x1 - x0 + 2 * ROOM);
  const below = y0 - ROOM - 34 / pixelsPerCm;
  const above = y1 + ROOM + 14 / pixelsPerCm;
  return {
    x: [x0 - ROOM, x1 + ROOM],
    y: [below, above],
    height: pixelsPerCm * (above - below),
    pixelsPerCm,
    mainFrom,
    tank,
    isCut: shown < length,
  };
}

/** How far the main runs over the bed before it leaves its box. */
function outsideOf(outline: BedOutline, from: Place, to: Place): number {
  const [x0, x1] = extent(outlineOf(outline), ({ x }) => x) as [number, number];
  const [y0, y1] = extent(outlineOf(outline), ({ y }) => y) as [number, number];
  const isInside = ({ x, y }: Place) => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  const length = distanceBetween(from, to);
  const at = (distance: number): Place => ({
    x: to.x + ((from.x - to.x) * distance) / length,
    y: to.y + ((from.y - to.y) * distance) / length,
  });
  return range(0, length, 5).find((distance) => !isInside(at(distance))) ?? length;
}

function outlineOf(outline: BedOutline): Place[] {
  if (outline.shape !== "circle") {
    const corners = bedCorners(outline);
    return [...corners, corners[0]!];
  }
  const { x, y } = centreOf(outline);
  const radius = outline.diameter / 2;
  return range(0, 361, 3).map((degrees) => ({
    x: x + radius * Math.cos((degrees * Math.PI) / 180),
    y: y + radius * Math.sin((degrees * Math.PI) / 180),
  }));
}

function pipeMarks({ filling }: FilledLine, { mainFrom }: View): Plot.Markish[] {
  const { ways, line } = filling.bedLine;
  const most = max(filling.flows)! || 1;
  const pipes = ways.map(({ from, to }, p) => ({
    from: p === 0 ? mainFrom : from,
    to,
    width: Math.max(NARROWEST, (WIDEST * filling.flows[p]!) / most),
    isDry: filling.flows[p]! <= 0,
    isTube: line.pieces[p]!.kind === "tube",
  }));
  const look = (isDry: boolean) =>
    Plot.link(
      pipes.filter((pipe) => pipe.isDry === isDry),
      {
        x1: ({ from }) => from.x,
        y1: ({ from }) => from.y,
        x2: ({ to }) => to.x,
        y2: ({ to }) => to.y,
        stroke: isDry ? faint : moistureColours[7]!,
        strokeWidth: "width",
        strokeLinecap: "round",
        ...(isDry && { strokeDasharray: "3 3" }),
      },
    );
  return [look(true), look(false)];
}

function jointMarks({ plan, pots, filling }: FilledLine): Plot.Markish[] {
  const joints = potJoints(plan, pots, filling.bedLine.rows);
  return [
    Plot.link(joints, {
      x1: ({ a }) => pots[a]!.x,
      y1: ({ a }) => pots[a]!.y,
      x2: ({ b }) => pots[b]!.x,
      y2: ({ b }) => pots[b]!.y,
      stroke: terracotta,
      strokeWidth: 12,
      strokeOpacity: 0.35,
    }),
  ];
}

function tankMarks({ filling }: FilledLine, { tank, mainFrom, isCut }: View, units: UnitSystem): Plot.Markish[] {
  const flow = `${format(filling.flows[0]!, "emitter flow", units)}`;
  const middle = { x: (mainFrom.x + tank.x) / 2, y: (mainFrom.y + tank.y) / 2 };
  const { to } = filling.bedLine.ways[0]!;
  const breakAt = { x: 0.6 * mainFrom.x + 0.4 * to.x, y: 0.6 * mainFrom.y + 0.4 * to.y };
  return [
    Plot.rect([tank], {
      x1: tank.x - TANK,
      x2: tank.x + TANK,
      y1: tank.y - TANK,
      y2: tank.y + TANK,
      fill: paper,
      stroke: ink,
      strokeWidth: 1.6,
    }),
    Plot.text([{ ...tank, text: "tank" }], { x: "x", y: "y", text: "text", fill: ink }),
    Plot.text([{ ...middle, text: flow }], {
      x: tank.x - TANK,
      y: tank.y - TANK,
      text: "text",
      textAnchor: "start",
      dy: 12,
      fill: ink,
    }),
    ...(isCut
      ? [
          Plot.text([breakAt], {
            x: "x",
            y: "y",
            text: ["//"],
            fontSize: 17,
            fontWeight: "bold",
            fill: ink,
            stroke: paper,
            strokeWidth: 5,
          }),
        ]
      : []),
  ];
}

function potMarks({ plan, pots, filling }: FilledLine, { pixelsPerCm }: View): Plot.Markish[] {
  const radius = Math.max(4, wallRadiusAt(plan.pot, 0) * pixelsPerCm);
  const latest = max(filling.pots, ({ minutes }) => minutes ?? 0)!;
  const drawn = pots.map((place, k) => {
    const { minutes } = filling.pots[k]!;
    const step = minutes === null ? 0 : 1 + Math.round(8 * (minutes / latest));
    return { ...place, minutes, step, number: k + 1, mark: markOf(filling, k) };
  });
  const isRoomy = plan.bed.spacing * pixelsPerCm >= ROOM_FOR_NUMBERS;
  const dots = Plot.dot(drawn, {
    x: "x",
    y: "y",
    r: radius,
    fill: ({ minutes, step }) => (minutes === null ? paper : moistureColours[step]!),
    stroke: ({ minutes, mark }) => (minutes === null ? neverColour : mark ? ink : terracotta),
    strokeWidth: 2.2,
  });
  const numbered = drawn.filter(({ mark }) => isRoomy || mark);
  return [dots, ...minutesMarks(numbered, radius), ...nameMarks(drawn, radius)];
}

interface DrawnPot extends Place {
  minutes: number | null;
  step: number;
  number: number;
  mark: string | null;
}

/** In the pot where that is wide enough, else below it. */
function minutesMarks(pots: DrawnPot[], radius: number): Plot.Markish[] {
  const text = ({ minutes }: DrawnPot) => (minutes === null ? "never" : minutesNumber(minutes));
  const isInside = (pot: DrawnPot) => radius >= ROOM_FOR_MINUTES && (pot.minutes !== null || radius >= 20);
  const inside = {
    x: "x",
    y: "y",
    text,
    fontWeight: "bold",
    fontSize: Math.min(15, Math.max(9, 0.8 * radius)),
  } as const;
  const isDark = ({ step }: DrawnPot) => step > 4;
  return [
    Plot.text(pots, { ...inside, filter: (pot) => isInside(pot) && isDark(pot), fill: paper }),
    Plot.text(pots, { ...inside, filter: (pot) => isInside(pot) && !isDark(pot), fill: ink }),
    Plot.text(pots, {
      ...inside,
      filter: (pot) => !isInside(pot),
      fontSize: 10,
      dy: radius + 7,
      fill: ink,
      stroke: paper,
    }),
  ];
}

/** Which pot it is, where there is room; and which are first and last. */
function nameMarks(pots: DrawnPot[], radius: number): Plot.Markish[] {
  const isNumbered = radius >= 12;
  const text = ({ number, mark }: DrawnPot) => [...(isNumbered ? [number] : []), ...(mark ? [mark] : [])].join(", ");
  const name = { x: "x", y: "y", text, dy: -radius - 8, fill: ink, stroke: paper } as const;
  return [
    Plot.text(pots, { ...name, filter: ({ mark }) => mark === null, fontSize: 11 }),
    Plot.text(pots, { ...name, filter: ({ mark }) => mark !== null, fontWeight: "bold" }),
  ];
}

function markOf({ pots, slowest, firstMinutes, valveMinutes }: FilledLine["filling"], pot: number): string | null {
  if (pots.length === 1) return null;
  if (pot === slowest) return valveMinutes === null ? "least" : "last";
  return pot === pots.findIndex(({ minutes }) => minutes === firstMinutes && minutes !== null) ? "first" : null;
}

/** A bar below the bed, of a round length. */
function scaleMarks({ x, y, pixelsPerCm }: View, units: UnitSystem): Plot.Markish[] {
  const unit = units === "us" ? 30.48 : 100;
  const length = [1, 2, 5, 10, 20].map((count) => count * unit).find((cm) => cm * pixelsPerCm >= 45) ?? 50 * unit;
  const bar = { x1: x[1] - ROOM - length, x2: x[1] - ROOM, y: y[0] + 20 / pixelsPerCm };
  return [
    Plot.ruleY([bar], { x1: "x1", x2: "x2", y: "y", stroke: ink, strokeWidth: 2.5 }),
    Plot.text([bar], {
      x: "x1",
      y: "y",
      text: [`${Math.round(fromModel(length, "distance", units))} ${unitOf("distance", units)}`],
      dx: -6,
      textAnchor: "end",
      fill: ink,
    }),
  ];
}
