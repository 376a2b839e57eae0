/** What a pot kept full gives against how thirsty the air is. */
import * as Plot from "@observablehq/plot";
import { type StraightLine, TRIED_DEMANDS } from "../../../model/public/advice.ts";
import { fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { faint, ink, paper } from "../../figures/look.ts";
import { chart } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { roundTop, spreadApart } from "./axes.ts";

/** Releases at each of `TRIED_DEMANDS`, L/day, and the line through them. */
export interface DemandLine {
  given: number[];
  taken: number[];
  line: StraightLine;
}

export interface Demands {
  spread: DemandLine;
  gathered: DemandLine;
}

const LAST = 9;

export function drawDemands({ spread, gathered }: Demands, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const flow = (litres: number) => fromModel(litres, "flow", units);
  const depth = (mm: number) => fromModel(mm, "rain", units);
  const top = roundTop([...spread.given, ...gathered.given, ...spread.taken].map(flow), flow(5));
  const last = TRIED_DEMANDS.at(-1)!;
  const at = ({ slope, intercept }: StraightLine, x: number) => flow(intercept + slope * x);
  const lines = [
    { name: "roots gathered", colour: "#6a4c93", symbol: "triangle" as const, ...gathered },
    { name: "roots spread", colour: "#00735c", symbol: "circle" as const, ...spread },
  ];
  const ends = [
    ...lines.map(({ name, colour, line }) => ({ name, colour, y: at(line, last) })),
    { name: "plants take", colour: faint, y: flow(spread.taken.at(-1)!) },
  ];
  return chart(label, stage, {
    height: Math.min(380, Math.max(300, stage.width * 0.6)),
    marginLeft: 44,
    marginRight: 100,
    marginTop: 30,
    marginBottom: 46,
    x: {
      domain: [0, depth(LAST)],
      label: `thirst of the air (${unitOf("rain", units)}/day)`,
      ticks: 5,
    },
    y: {
      domain: [0, top],
      label: `the pot gives (${unitOf("flow", units)})`,
      ticks: 5,
      grid: true,
    },
    marks: [
      Plot.ruleY([0], { stroke: ink }),
      Plot.line(TRIED_DEMANDS, {
        x: depth,
        y: (_: number, i: number) => flow(spread.taken[i]!),
        stroke: faint,
        strokeDasharray: "2 3",
        strokeWidth: 2,
      }),
      ...lines.flatMap(({ colour, symbol, line, given }) => [
        Plot.line([TRIED_DEMANDS[0]!, last], {
          x: depth,
          y: (x: number) => at(line, x),
          stroke: colour,
          strokeWidth: 1.6,
        }),
        Plot.dot(TRIED_DEMANDS, {
          x: depth,
          y: (_: number, i: number) => flow(given[i]!),
          fill: colour,
          symbol,
          r: 4.5,
        }),
      ]),
      Plot.text(spreadApart(ends, top / 14), {
        x: depth(last),
        y: "y",
        text: "name",
        fill: "colour",
        dx: 10,
        textAnchor: "start",
        stroke: paper,
        fontSize: 12,
      }),
    ],
  });
}
