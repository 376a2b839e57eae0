/** The pot's level and the suction at the roots through two weeks, a line for each bed. */
import * as Plot from "@observablehq/plot";
import { COMPARED_DAYS, HAND, headFromWall } from "../../../model/public/advice.ts";
import { buildPot } from "../../../model/public/flow.ts";
import { entry, first, last, type PlanCrop } from "../../../model/public/plan.ts";
import { fromModel, suctionKPa, type UnitSystem } from "../../../model/public/units.ts";
import { ink, moistureColours, paper } from "../../figures/look.ts";
import { axisLabel, chart, endNames, margins, spreadApart } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { dayAxis } from "./axes.ts";
import type { Bed } from "./stages.ts";

interface Point {
  x: number;
  y: number;
}

const room = margins(26, 104, 42, 46);

export function drawLevels(beds: Bed[], units: UnitSystem, label: string, stage: Stage): SVGElement {
  const pot = buildPot(first(beds).plan.pot);
  const length = (cm: number) => fromModel(cm, "length", units);
  const full = length(pot.emptyDepth - pot.fullDepth);
  const lines = beds.map((bed) => {
    const { day, waterLevelDepth } = bed.run.history;
    return {
      bed,
      points: waterLevelDepth.map((depth, i) => ({ x: entry(day, i), y: length(pot.emptyDepth - depth) })),
    };
  });
  return chart(label, stage, {
    height: 230,
    ...room,
    x: dayAxis,
    y: { domain: [0, full], label: axisLabel("height of the water in the pot", "length", units), ticks: 5, grid: true },
    marks: [...lines.map(lineMark), endLabels(lines, full / 9)],
  });
}

/** Suctions drawn, kPa; fixed, so that nothing jumps. */
const LEAST = 1;
const MOST = 1500;

/** Suction a hand's width from the wall at root depth on each kept day, kPa; the first at the start. */
export function suctionCourse({ plan, run }: Bed): { day: number; suction: number }[] {
  const kept = run.frames.map((frame) => ({
    day: frame.day,
    suction: Math.max(suctionKPa(headFromWall(plan, run, frame, HAND)), 0),
  }));
  return [{ day: 0, suction: suctionKPa(plan.startHead) }, ...kept];
}

export function drawSuctions(beds: Bed[], label: string, stage: Stage): SVGElement {
  const { crop } = first(beds).plan;
  const drawn = (suction: number) => Math.min(Math.max(suction, LEAST), MOST);
  const lines = beds.map((bed) => ({
    bed,
    points: suctionCourse(bed).map(({ day, suction }) => ({ x: day, y: drawn(suction) })),
  }));
  return chart(label, stage, {
    height: 300,
    ...room,
    x: dayAxis,
    y: {
      type: "log",
      domain: [LEAST, MOST],
      label: "suction at the roots (kPa)",
      ticks: [1, 3, 10, 30, 100, 300, 1000],
      tickFormat: "d",
    },
    marks: [
      easyBand(crop, drawn),
      ...lines.map(lineMark),
      ...lines.map(({ bed, points }) => Plot.dot(points, { x: "x", y: "y", r: 2.2, fill: bed.look.colour })),
      ...easyWords(crop, drawn),
      endLabels(lines, Math.log(MOST / LEAST) / 14, true),
    ],
  });
}

type Clamp = (suction: number) => number;

const easyLimits = ({ uptake: { h2, h3 } }: PlanCrop, drawn: Clamp) =>
  [h2, h3.highDemand].map((head) => drawn(suctionKPa(head))) as [wet: number, dry: number];

const bandColour = moistureColours[1];

function easyBand(crop: PlanCrop, drawn: Clamp): Plot.Markish {
  const [y1, y2] = easyLimits(crop, drawn);
  return Plot.rect([0], { x1: 0, x2: COMPARED_DAYS, y1, y2, fill: bandColour });
}

function easyWords(crop: PlanCrop, drawn: Clamp): Plot.Markish[] {
  const [wet, dry] = easyLimits(crop, drawn);
  const words = { x: COMPARED_DAYS, dx: -6, textAnchor: "end", fontSize: 11, fill: ink, stroke: paper } as const;
  return [
    Plot.text(["too dry to drink freely"], { ...words, y: dry, dy: -8 }),
    Plot.text(["roots drink freely"], { ...words, y: dry, dy: 9, stroke: bandColour }),
    Plot.text(["too wet"], { ...words, y: wet, dy: 9 }),
  ];
}

interface Line {
  bed: Bed;
  points: Point[];
}

const lineMark = ({ bed: { look }, points }: Line): Plot.Markish =>
  Plot.line(points, { x: "x", y: "y", stroke: look.colour, strokeDasharray: look.dash, strokeWidth: 2 });

/** Names at the lines' ends, apart by a distance, or on an axis of logarithms by a factor. */
function endLabels(lines: Line[], gap: number, isLog = false): Plot.Markish {
  const ends = lines.map(({ bed, points }) => {
    const { y } = last(points);
    return { name: bed.name, colour: bed.look.colour, y: isLog ? Math.log(y) : y };
  });
  const y = (end: { y: number }) => (isLog ? Math.exp(end.y) : end.y);
  return endNames(spreadApart(ends, gap), { x: COMPARED_DAYS, y, fontSize: 12 });
}
