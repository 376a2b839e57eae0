/** One filling, day by day: the water left in the pot above, the share of their thirst that plants get met below. */
import * as Plot from "@observablehq/plot";
import { ENOUGH } from "../../../model/public/advice.ts";
import { fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, paper, potWater, warning } from "../../figures/look.ts";
import { bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import type { FillingCourse } from "./course.ts";

/** Fixed, so that nothing jumps. */
export const SHOWN_DAYS = 14;

const thirstColour = moistureColours[7];
const sufferColour = warning;

/** Pixels from the top of the drawing; values run upwards from `bottom`. */
interface Panel {
  top: number;
  bottom: number;
  greatest: number;
}

const LEVELS = { top: 40, bottom: 178 };
const SHARES = { top: 238, bottom: 366, greatest: 100 };
const HEIGHT = 410;

const at = ({ top, bottom, greatest }: Panel, value: number) => bottom - ((bottom - top) * value) / greatest;

export function drawCourse(course: FillingCourse, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const capacity = fromModel(course.capacity, "volume", units);
  const levels = { ...LEVELS, greatest: roundAbove(capacity) };
  return chart(label, stage, {
    height: HEIGHT,
    ...margins(0, 54, HEIGHT - SHARES.bottom, 46),
    x: { domain: [0, SHOWN_DAYS], label: course.since, ticks: SHOWN_DAYS / 2 },
    y: { domain: [0, HEIGHT], range: [0, HEIGHT], axis: null },
    marks: [
      ...refillMarks(course),
      ...panelMarks(
        levels,
        [0, levels.greatest / 2, levels.greatest],
        `water left in the pot (${unitOf("volume", units)})`,
      ),
      ...panelMarks(SHARES, [0, 50, 100], "share of the plants’ thirst that is met (%)"),
      ...levelMarks(course, levels, units),
      ...shareMarks(course),
      ...sufferMarks(course),
    ],
  });
}

/** A round number that stays put while the size of a pot changes a little. */
function roundAbove(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return power * ([1, 1.5, 2, 3, 4, 5, 6, 8].find((digit) => digit * power >= value - 1e-9) ?? 10);
}

function panelMarks(panel: Panel, ticks: number[], name: string): Plot.Markish[] {
  return [
    Plot.ruleY(ticks, {
      y: (value: number) => at(panel, value),
      x1: 0,
      x2: SHOWN_DAYS,
      stroke: ink,
      strokeOpacity: 0.15,
    }),
    Plot.text(ticks, {
      x: 0,
      y: (value: number) => at(panel, value),
      text: (value: number) => String(Number(value.toPrecision(3))),
      dx: -7,
      textAnchor: "end",
    }),
    Plot.text([name], { x: 0, y: panel.top - 24, dx: -40, textAnchor: "start", stroke: paper, fill: ink }),
  ];
}

function levelMarks(
  { left, capacity, quarterDays, emptyDays, isHeld }: FillingCourse,
  panel: Panel,
  units: UnitSystem,
) {
  const y = (litres: number) => at(panel, fromModel(litres, "volume", units));
  const points = left.map(({ day, litres }) => ({ day, y: y(litres) }));
  const marked = [
    { day: quarterDays, litres: capacity / 4, name: "a quarter left" },
    { day: emptyDays, litres: 0, name: "empty" },
  ].filter(
    (mark): mark is { day: number; litres: number; name: string } => mark.day !== null && mark.day <= SHOWN_DAYS,
  );
  return [
    Plot.areaY(points, { x: "day", y1: panel.bottom, y2: "y", fill: potWater, fillOpacity: 0.55, clip: true }),
    Plot.line(points, { x: "day", y: "y", stroke: moistureColours[8], strokeWidth: 2, clip: true }),
    Plot.ruleY([y(capacity / 4)], { x1: 0, x2: SHOWN_DAYS, stroke: faint, strokeDasharray: "1 4" }),
    Plot.dot(marked, { x: "day", y: ({ litres }) => y(litres), r: 4.5, fill: moistureColours[8] }),
    // The label of a late day stands to its left.
    ...[false, true].map((isLate) =>
      Plot.text(
        marked.filter(({ day }) => day > 9 === isLate),
        {
          x: "day",
          y: ({ litres }) => y(litres),
          text: ({ day, name }) => `${name}, day ${day.toFixed(1)}`,
          textAnchor: isLate ? "end" : "start",
          dx: isLate ? -4 : 9,
          dy: -11,
          stroke: paper,
          fill: ink,
        },
      ),
    ),
    Plot.text(isHeld ? ["held by the float"] : [], { x: SHOWN_DAYS / 2, y: (panel.top + panel.bottom) / 2 }),
  ];
}

function shareMarks({ met }: FillingCourse): Plot.Markish[] {
  const points = met.map(({ day, share }) => ({ day, y: at(SHARES, 100 * share) }));
  const enough = at(SHARES, 100 * ENOUGH);
  return [
    Plot.ruleY([enough], { x1: 0, x2: SHOWN_DAYS, stroke: sufferColour, strokeDasharray: "5 3" }),
    Plot.line(points, { x: "day", y: "y", curve: "step-after", stroke: thirstColour, strokeWidth: 2.4, clip: true }),
    wordsAt({ x: SHOWN_DAYS, y: enough }, `${100 * ENOUGH} %\nenough`, {
      dx: 6,
      textAnchor: "start",
      fill: sufferColour,
    }),
  ];
}

/** Words beside an upright line, on the side that has more room. */
const besideDay = (day: number) =>
  day > SHOWN_DAYS / 2 ? ({ textAnchor: "end", dx: -4 } as const) : ({ textAnchor: "start", dx: 4 } as const);

/** The day on which the plan would refill: what comes after shows what a late refill means. */
function refillMarks({ nextRefill: day }: FillingCourse): Plot.Markish[] {
  if (day === null || day > SHOWN_DAYS) return [];
  return [
    Plot.ruleX([day], { y1: LEVELS.top, y2: SHARES.bottom, stroke: faint, strokeDasharray: "2 3" }),
    wordsAt({ x: day, y: LEVELS.top - 6 }, "next refill due", { ...besideDay(day), fontSize: 12 }),
  ];
}

function sufferMarks({ sufferDays: day, sufferCause }: FillingCourse): Plot.Markish[] {
  if (day === null || day > SHOWN_DAYS) return [];
  const when = day < 0.25 ? "at once" : `from day ${Number(day.toFixed(1))}`;
  return [
    Plot.ruleX([day], { y1: SHARES.top - 4, y2: SHARES.bottom, stroke: sufferColour, strokeWidth: 1.6 }),
    wordsAt({ x: day, y: SHARES.top - 8 }, `suffer ${when}: too ${sufferCause}`, {
      ...bold(sufferColour),
      ...besideDay(day),
    }),
  ];
}
