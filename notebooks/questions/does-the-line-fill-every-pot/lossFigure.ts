/** Where the head is lost on the way to the slowest pot, as bars. */
import * as Plot from "@observablehq/plot";
import { sum } from "d3-array";
import type { Losses, PieceKind } from "../../../model/public/advice.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { ink, moistureColours, paper } from "../../figures/look.ts";
import { axisLabel, chart, margins } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { headWords } from "../../words/lineWords.ts";

export interface LossStage {
  name: string;
  /** m. */
  head: number;
}

const pipeNames: [PieceKind, string][] = [
  ["main", "main"],
  ["riser", "riser"],
  ["cross pipe", "cross pipes"],
  ["row pipe", "pipe along the row"],
  ["tube", "small tube"],
];

/** In the order in which water passes them. Fittings of the main have a bar of their own; others count with their pipe. */
export function lossStages({ rows, atOutlet }: Losses, hasEmitter: boolean): LossStage[] {
  const of = (kind: PieceKind) => rows.filter((row) => row.kind === kind);
  const fittings = sum(of("main"), (row) => row.fittings);
  return [
    { name: "entrance, valve, bend", head: fittings },
    ...pipeNames.map(([kind, name]) => ({
      name,
      head: sum(of(kind), (row) => row.friction + (kind === "main" ? 0 : row.fittings)),
    })),
    { name: hasEmitter ? "emitter" : "open end", head: atOutlet },
  ];
}

/** `available`, m: from the full tank's water down to the tube's end; the bars add up to it. */
export function drawLosses(stages: LossStage[], available: number, units: UnitSystem, label: string, stage: Stage) {
  const length = (metres: number) => fromModel(100 * metres, "length", units);
  const bar = { x: ({ head }: LossStage) => length(head), y: "name" };
  return chart(label, stage, {
    height: 30 * stages.length + 56,
    ...margins(6, 66, 44, 142),
    x: {
      domain: [0, length(available) || 1],
      label: axisLabel("head lost", "length", units),
      ticks: stage.width < 500 ? 4 : 8,
    },
    y: { domain: stages.map(({ name }) => name), label: null, tickSize: 0 },
    marks: [
      Plot.barX(stages, { ...bar, fill: moistureColours[6], insetTop: 3, insetBottom: 3 }),
      Plot.text(stages, {
        ...bar,
        text: ({ head }) => headWords(head, units),
        dx: 5,
        textAnchor: "start",
        fill: ink,
        stroke: paper,
      }),
      Plot.ruleX([0], { stroke: ink }),
    ],
  });
}
