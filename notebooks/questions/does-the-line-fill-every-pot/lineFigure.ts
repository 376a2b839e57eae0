/** The line over the bed seen from above, to scale: pipes as wide as their flow. */
import * as Plot from "@observablehq/plot";
import { max } from "d3-array";
import { type FilledLine, potJoints } from "../../../model/public/advice.ts";
import { entry, first, type Place } from "../../../model/public/plan.ts";
import { format, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, paper, terracotta } from "../../figures/look.ts";
import { bold, chart, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { type LineView, lineView, outlineOf, ROOM, TANK } from "./lineView.ts";
import { potMarks } from "./potMarks.ts";

/** Pipes, pixels. */
const WIDEST = 7;
const NARROWEST = 1.2;

export function drawLine(filled: FilledLine, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const view = lineView(filled, stage.width);
  return chart(label, stage, {
    margin: 0,
    height: view.height,
    x: { domain: view.x, range: [0, stage.width], axis: null },
    y: { domain: view.y, range: [view.height, 0], axis: null },
    marks: [
      Plot.line(outlineOf(filled.plan.bed.outline), {
        x: "x",
        y: "y",
        fill: moistureColours[0],
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

interface Link {
  from: Place;
  to: Place;
}

const fromTo = {
  x1: ({ from }: Link) => from.x,
  y1: ({ from }: Link) => from.y,
  x2: ({ to }: Link) => to.x,
  y2: ({ to }: Link) => to.y,
};

function pipeMarks({ filling }: FilledLine, { mainFrom }: LineView): Plot.Markish[] {
  const { flows, bedLine } = filling;
  const most = max(flows) || 1;
  const pipes = bedLine.ways.map(({ from, to }, p) => {
    const flow = entry(flows, p);
    const width = Math.max(NARROWEST, (WIDEST * flow) / most);
    return { from: p === 0 ? mainFrom : from, to, width, isDry: flow <= 0 };
  });
  const look = (isDry: boolean) =>
    Plot.link(
      pipes.filter((pipe) => pipe.isDry === isDry),
      {
        ...fromTo,
        stroke: isDry ? faint : moistureColours[7],
        strokeWidth: "width",
        strokeLinecap: "round",
        ...(isDry && { strokeDasharray: "3 3" }),
      },
    );
  return [look(true), look(false)];
}

function jointMarks({ plan, pots, filling }: FilledLine): Plot.Markish[] {
  const joints = potJoints(plan, pots, filling.bedLine.rows).map(({ a, b }) => ({
    from: entry(pots, a),
    to: entry(pots, b),
  }));
  return [Plot.link(joints, { ...fromTo, stroke: terracotta, strokeWidth: 12, strokeOpacity: 0.35 })];
}

function tankMarks({ filling }: FilledLine, { tank, mainFrom, isCut }: LineView, units: UnitSystem): Plot.Markish[] {
  const flow = format(first(filling.flows), "emitter flow", units);
  const { to } = first(filling.bedLine.ways);
  const corner = { x: tank.x - TANK, y: tank.y - TANK };
  const breakAt = { x: 0.6 * mainFrom.x + 0.4 * to.x, y: 0.6 * mainFrom.y + 0.4 * to.y };
  return [
    Plot.rect([corner], {
      x1: "x",
      x2: tank.x + TANK,
      y1: "y",
      y2: tank.y + TANK,
      fill: paper,
      stroke: ink,
      strokeWidth: 1.6,
    }),
    wordsAt(tank, "tank", { fill: ink }),
    wordsAt(corner, flow, { textAnchor: "start", dy: 12, fill: ink }),
    ...(isCut ? [wordsAt(breakAt, "//", { ...bold(ink), fontSize: 17, strokeWidth: 5 })] : []),
  ];
}

/** A bar below the bed, of a round length. */
function scaleMarks({ x, y, pixelsPerCm }: LineView, units: UnitSystem): Plot.Markish[] {
  const unit = units === "us" ? 30.48 : 100;
  const length = [1, 2, 5, 10, 20].map((count) => count * unit).find((cm) => cm * pixelsPerCm >= 45) ?? 50 * unit;
  const bar = { x1: x[1] - ROOM - length, x2: x[1] - ROOM, y: y[0] + 20 / pixelsPerCm };
  return [
    Plot.ruleY([bar], { x1: "x1", x2: "x2", y: "y", stroke: ink, strokeWidth: 2.5 }),
    wordsAt(
      { x: bar.x1, y: bar.y },
      `${Math.round(fromModel(length, "distance", units))} ${unitOf("distance", units)}`,
      { dx: -6, textAnchor: "end", fill: ink },
    ),
  ];
}
