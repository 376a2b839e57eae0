/** How full the tanks are through the year: in most years, and in the driest ones. */
import * as Plot from "@observablehq/plot";
import { fullness, type Season, type SupplyYear, type TankDay } from "../../model/public/advice.ts";
import { DAYS_OF_YEAR, dayOfYear, daysUntil, entry, MONTHS, monthName } from "../../model/public/plan.ts";
import type { Stage } from "../notebook/notebook.ts";
import { faint, ink, moistureColours, paper } from "./look.ts";
import { chart, margins, wordsAt } from "./plotting.ts";

export interface TankFigure {
  years: readonly SupplyYear[];
  /** Of all tanks, litres. */
  capacity: number;
  season: Season;
}

const colour = moistureColours[8];

export function drawTank({ years, capacity, season }: TankFigure, label: string, stage: Stage): SVGElement {
  const days = fullness(years, capacity);
  const isNarrow = stage.width < 500;
  return chart(label, stage, {
    height: Math.max(260, Math.min(400, stage.width * 0.6)),
    ...margins(28, 12, 40, 48),
    x: {
      domain: [1, DAYS_OF_YEAR],
      label: null,
      ticks: monthStarts(),
      tickFormat: (day: number) => monthName(entry(MONTHS, monthStarts().indexOf(day))).slice(0, isNarrow ? 1 : 3),
    },
    y: { domain: [0, 100], label: "tanks full (%)", ticks: 5, grid: true },
    marks: [
      ...seasonMarks(season),
      Plot.areaY(days, { x: "day", y1: "low", y2: "high", fill: colour, fillOpacity: 0.25 }),
      Plot.line(days, { x: "day", y: "low", stroke: colour, strokeDasharray: "4 3" }),
      Plot.line(days, { x: "day", y: "middle", stroke: colour, strokeWidth: 2.5 }),
      ...nameMarks(days, season, isNarrow),
    ],
  });
}

const monthStarts = () => MONTHS.map((month) => dayOfYear(month, 1));

/** A season that goes on over the new year has two parts. */
function seasonMarks({ plantingDay, days }: Season): Plot.Markish[] {
  const end = plantingDay + days;
  const parts = [
    { x1: plantingDay, x2: Math.min(end, DAYS_OF_YEAR) },
    ...(end > DAYS_OF_YEAR ? [{ x1: 1, x2: end - DAYS_OF_YEAR }] : []),
  ];
  return [
    Plot.rect(parts, { x1: "x1", x2: "x2", y1: 0, y2: 100, fill: moistureColours[1], fillOpacity: 0.35 }),
    wordsAt({ x: plantingDay, y: 100 }, "the season", { textAnchor: "start", dx: 4, dy: -8, fill: faint }),
  ];
}

/** Named where they lie farthest apart; where they never do, once. */
function nameMarks(days: TankDay[], { plantingDay, days: length }: Season, isNarrow: boolean): Plot.Markish[] {
  const inSeason = days.filter(({ day }) => daysUntil(plantingDay, day) < length);
  const apart = inSeason.reduce((best, each) => (each.middle - each.low > best.middle - best.low ? each : best));
  const style = { x: "day", fill: ink, stroke: paper };
  const half = isNarrow ? "half of years" : "in half of the years at least";
  const isApart = apart.middle - apart.low > 12;
  return [
    Plot.text([apart], { ...style, y: "middle", text: [half], textAnchor: "start", dx: 8, dy: -8 }),
    ...(isApart
      ? [Plot.text([apart], { ...style, y: "low", text: ["in nine of ten"], textAnchor: "end", dx: -12, dy: -6 })]
      : []),
  ];
}
