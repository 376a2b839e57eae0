/** What the pot gives day by day beside what plants want and take, one panel for each bed. */
import * as Plot from "@observablehq/plot";
import { first, last } from "../../../model/public/plan.ts";
import { fromModel, rounded, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { ink, paper, potWater } from "../../figures/look.ts";
import { chart, margins, spreadApart, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { dayAxis, roundTop } from "./axes.ts";
import type { Bed, Beds } from "./stages.ts";

const takenColour = "#00735c";
const wantedColour = "#b35900";

/** From the start of a day to its end. */
const wholeDay = { x1: (_: number, i: number) => i, x2: (_: number, i: number) => i + 1 };

/** Top of the axis of a small pot, L/day. */
const LEAST_TOP = 5;
const PALE = 0.35;
const bareWords = { dx: 4, dy: -6, textAnchor: "start", fontSize: 11, stroke: paper, fill: ink } as const;

export function drawRelease(beds: Beds, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const flow = (litres: number) => fromModel(litres, "flow", units);
  const all = [beds.bare, beds.young, beds.grown];
  const top = roundTop(all.flatMap(({ use }) => [...use.givenByDay, ...use.wantedByDay]).map(flow), flow(LEAST_TOP));
  return chart(label, stage, {
    height: 500,
    ...margins(40, 44, 42, 40),
    x: dayAxis,
    y: { domain: [0, top], label: `water, ${unitOf("flow", units)}`, ticks: 4, grid: true },
    fy: { domain: all.map(({ name }) => name), padding: 0.26, axis: null },
    marks: [
      ...all.flatMap((bed) => bedMarks(bed, beds.bare, { flow, top, units })),
      ...Object.values(beds).map(({ name }) => Plot.ruleY([0], { fy: () => name, stroke: ink })),
    ],
  });
}

interface Scale {
  flow(litres: number): number;
  top: number;
  units: UnitSystem;
}

function bedMarks(bed: Bed, bare: Bed, scale: Scale): Plot.Markish[] {
  const { name, use, isOutdated } = bed;
  const opacity = isOutdated ? PALE : 1;
  const fy = () => name;
  return [
    Plot.rect(use.givenByDay, {
      fy,
      x1: (_: number, i: number) => i + 0.08,
      x2: (_: number, i: number) => i + 0.92,
      y1: 0,
      y2: scale.flow,
      fill: potWater,
      opacity,
    }),
    ...(bed === bare ? [] : plantedMarks(bed, bare, scale)),
    Plot.text([`${name}: ${isOutdated ? "being worked out …" : headWords(bed, scale.units)}`], {
      fy,
      frameAnchor: "top-left",
      dy: -16,
      dx: 2,
      fontWeight: "bold",
      fontSize: 12,
      opacity,
    }),
  ];
}

/** Short enough for a phone. */
function headWords({ use }: Bed, units: UnitSystem): string {
  const number = (litres: number) => rounded(fromModel(litres, "flow", units), unitOf("flow", units));
  const taken = use.wanted > 0 ? `, taken ${number(use.taken)}` : "";
  return `given ${number(use.given)}${taken} ${unitOf("flow", units)}`;
}

function plantedMarks({ name, use, isOutdated }: Bed, bare: Bed, { flow, top }: Scale): Plot.Markish[] {
  const opacity = isOutdated ? PALE : 1;
  const fy = () => name;
  const line = { fy, x: "x", y: "y", opacity };
  const steps = (byDay: readonly number[]) => byDay.flatMap((y, i) => [i, i + 1].map((x) => ({ x, y: flow(y) })));
  const ends = [
    { text: "want", colour: wantedColour, y: flow(last(use.wantedByDay)) },
    { text: "take", colour: takenColour, y: flow(last(use.takenByDay)) - 1e-6 },
  ];
  return [
    Plot.ruleY(bare.use.givenByDay, { fy, ...wholeDay, y: flow, stroke: ink, strokeWidth: 1.4, opacity }),
    Plot.line(steps(use.wantedByDay), { ...line, stroke: wantedColour, strokeWidth: 2, strokeDasharray: "5 3" }),
    Plot.line(steps(use.takenByDay), { ...line, stroke: takenColour, strokeWidth: 2.2 }),
    Plot.text(spreadApart(ends, top / 6), {
      fy,
      x: 14,
      y: "y",
      dx: 5,
      text: "text",
      fill: "colour",
      textAnchor: "start",
      fontSize: 12,
      opacity,
    }),
    wordsAt({ x: 1, y: flow(first(bare.use.givenByDay)) }, "with nothing planted", { ...bareWords, fy, opacity }),
  ];
}
