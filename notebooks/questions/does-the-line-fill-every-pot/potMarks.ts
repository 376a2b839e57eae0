/** The pots of a drawn line: as dark as they are late, each with its minutes. */
import * as Plot from "@observablehq/plot";
import { max } from "d3-array";
import type { FilledLine } from "../../../model/public/advice.ts";
import { wallRadiusAt } from "../../../model/public/flow.ts";
import { entry, type Place } from "../../../model/public/plan.ts";
import { ink, moistureColours, paper, terracotta, warning } from "../../figures/look.ts";
import { minutesNumber } from "../../words/lineWords.ts";
import type { LineView } from "./lineView.ts";

/** Least pixels between two pots for each to show its minutes; least radius of a pot to show them inside. */
const ROOM_FOR_NUMBERS = 24;
const ROOM_FOR_MINUTES = 7.5;

export function potMarks({ plan, pots, filling }: FilledLine, { pixelsPerCm }: LineView): Plot.Markish[] {
  const radius = Math.max(4, wallRadiusAt(plan.pot, 0) * pixelsPerCm);
  const latest = max(filling.pots, ({ minutes }) => minutes ?? 0) ?? 0;
  const drawn = filling.pots.map(({ minutes }, k) => {
    const step = minutes === null ? 0 : 1 + Math.round(8 * (minutes / latest));
    return { ...entry(pots, k), minutes, step, number: k + 1, mark: markOf(filling, k) };
  });
  const isRoomy = plan.bed.spacing * pixelsPerCm >= ROOM_FOR_NUMBERS;
  const dots = Plot.dot(drawn, {
    x: "x",
    y: "y",
    r: radius,
    fill: ({ minutes, step }) => (minutes === null ? paper : entry(moistureColours, step)),
    stroke: ({ minutes, mark }) => (minutes === null ? warning : mark ? ink : terracotta),
    strokeWidth: 2.2,
  });
  const numbered = drawn.filter(({ mark }) => isRoomy || mark);
  return [dots, ...minutesMarks(numbered, radius), ...nameMarks(drawn, radius)];
}

interface PotMark extends Place {
  minutes: number | null;
  step: number;
  number: number;
  mark: string | null;
}

/** In the pot where that is wide enough, else below it. */
function minutesMarks(pots: PotMark[], radius: number): Plot.Markish[] {
  const text = ({ minutes }: PotMark) => (minutes === null ? "never" : minutesNumber(minutes));
  const isInside = (pot: PotMark) => radius >= ROOM_FOR_MINUTES && (pot.minutes !== null || radius >= 20);
  const inside = {
    x: "x",
    y: "y",
    text,
    fontWeight: "bold",
    fontSize: Math.min(15, Math.max(9, 0.8 * radius)),
  } as const;
  const isDark = ({ step }: PotMark) => step > 4;
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
function nameMarks(pots: PotMark[], radius: number): Plot.Markish[] {
  const isNumbered = radius >= 12;
  const text = ({ number, mark }: PotMark) => [...(isNumbered ? [number] : []), ...(mark ? [mark] : [])].join(", ");
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
