/** The line over the bed seen from above, to scale: pipes as wide as their flow. */
import * as Plot from "@observablehq/plot";
import { max } from "d3-array";
import { type FilledLine, potJoints } from "../../../model/public/advice.ts";
import { format, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, paper, terracotta } from "../../figures/look.ts";
import { chart } from "../../figures/plotting.ts";
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

function pipeMarks({ filling }: FilledLine, { mainFrom }: LineView): Plot.Markish[] {
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
        stroke: isDry ? faint : moistureColours[7],
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

function tankMarks({ filling }: FilledLine, { tank, mainFrom, isCut }: LineView, units: UnitSystem): Plot.Markish[] {
  const flow = format(filling.flows[0]!, "emitter flow", units);
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
    Plot.text([tank], { x: "x", y: "y", text: ["tank"], fill: ink }),
    Plot.text([flow], {
      x: tank.x - TANK,
      y: tank.y - TANK,
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

/** A bar below the bed, of a round length. */
function scaleMarks({ x, y, pixelsPerCm }: LineView, units: UnitSystem): Plot.Markish[] {
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
