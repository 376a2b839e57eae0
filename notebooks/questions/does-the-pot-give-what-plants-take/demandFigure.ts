/** What a pot kept full gives against how thirsty the air is. */
import * as Plot from "@observablehq/plot";
import { type StraightLine, TRIED_DEMANDS } from "../../../model/public/advice.ts";
import { first, last } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { faint, ink } from "../../figures/look.ts";
import { chart, endNames, margins, spreadApart } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { roundTop } from "./axes.ts";

/** What the pot gives and plants take, L/day, where the air asks for `ETo`, mm/day. */
export interface DemandPoint {
  ETo: number;
  given: number;
  taken: number;
}

/** A point for each of `TRIED_DEMANDS`, and the line through what is given. */
export interface DemandLine {
  points: DemandPoint[];
  line: StraightLine;
}

export interface Demands {
  spread: DemandLine;
  gathered: DemandLine;
}

const LAST = 9;
const dotted = { stroke: faint, strokeDasharray: "2 3", strokeWidth: 2 };

export function drawDemands({ spread, gathered }: Demands, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const flow = (litres: number) => fromModel(litres, "flow", units);
  const depth = (mm: number) => fromModel(mm, "rain", units);
  const drawn = [...spread.points, ...gathered.points].map(({ given }) => given);
  const top = roundTop([...drawn, ...spread.points.map(({ taken }) => taken)].map(flow), flow(5));
  const [least, most] = [first(TRIED_DEMANDS), last(TRIED_DEMANDS)];
  const x = ({ ETo }: DemandPoint) => depth(ETo);
  const at = ({ slope, intercept }: StraightLine, ETo: number) => flow(intercept + slope * ETo);
  const lines = [
    { name: "roots gathered", colour: "#6a4c93", symbol: "triangle" as const, ...gathered },
    { name: "roots spread", colour: "#00735c", symbol: "circle" as const, ...spread },
  ];
  const ends = [
    ...lines.map(({ name, colour, line }) => ({ name, colour, y: at(line, most) })),
    { name: "plants take", colour: faint, y: flow(last(spread.points).taken) },
  ];
  return chart(label, stage, {
    height: Math.min(380, Math.max(300, stage.width * 0.6)),
    ...margins(30, 100, 46, 44),
    x: { domain: [0, depth(LAST)], label: `thirst of the air (${unitOf("rain", units)}/day)`, ticks: 5 },
    y: { domain: [0, top], label: `the pot gives (${unitOf("flow", units)})`, ticks: 5, grid: true },
    marks: [
      Plot.ruleY([0], { stroke: ink }),
      Plot.line(spread.points, { x, y: ({ taken }) => flow(taken), ...dotted }),
      ...lines.flatMap(({ colour, symbol, line, points }) => [
        Plot.line([least, most], { x: depth, y: (ETo: number) => at(line, ETo), stroke: colour, strokeWidth: 1.6 }),
        Plot.dot(points, { x, y: ({ given }) => flow(given), fill: colour, symbol, r: 4.5 }),
      ]),
      endNames(spreadApart(ends, top / 14), { x: depth(most), dx: 10, fontSize: 12 }),
    ],
  });
}
