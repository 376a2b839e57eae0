/** The number of weight against capillarity beside the shape that the runs give. */
import * as Plot from "@observablehq/plot";
import { faint, ink, paper, seriesLooks } from "../../figures/look.ts";
import { chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import type { Racer } from "./race.ts";

/** Width over depth of fronts around a porous ceramic emitter in 12 textures: Water 2019, 11(1), 22 (abstract). */
export const publishedRatios = { least: 0.84, greatest: 1.49 };

const numbers: [number, number] = [0.02, 20];
const ratios: [number, number] = [0.4, 2.4];

export function drawNumbers(racers: Racer[], stage: Stage): SVGElement {
  const shown = racers.filter(({ ratio }) => ratio > 0);
  return chart("Width over depth of the front against weight over capillarity", stage, {
    height: Math.min(420, Math.max(320, 0.55 * stage.width)),
    ...margins(20, 16, 42, 48),
    x: {
      type: "log",
      domain: numbers,
      ticks: [0.02, 0.1, 0.5, 1, 2, 10],
      tickFormat: String,
      label: "s, weight over capillarity",
    },
    y: { domain: ratios, label: "width / depth of the front", ticks: 5 },
    marks: [
      Plot.rect([publishedRatios], { x1: numbers[0], x2: numbers[1], y1: "least", y2: "greatest", fill: "#e9dfc8" }),
      wordsAt({ x: numbers[0], y: publishedRatios.greatest }, "measured around porous emitters", measured),
      Plot.ruleX([1], { stroke: faint, strokeDasharray: "2 3" }),
      ...sideWords(),
      ...shown.flatMap(racerMarks),
    ],
  });
}

const measured = { dx: 6, dy: 10, textAnchor: "start", fill: ink } as const;

function sideWords(): Plot.Markish[] {
  const words = { x: 1, y: ratios[1], dy: 8, fill: ink };
  return [
    Plot.text(["← capillarity wins: round"], { ...words, dx: -8, textAnchor: "end", lineWidth: 10 }),
    Plot.text(["weight wins: long →"], { ...words, dx: 8, textAnchor: "start", lineWidth: 10 }),
  ];
}

/** Hollow where the soil is soaked at the wall, filled behind this wall. */
function racerMarks({ name, look, ratio, soaked, behindWall }: Racer): Plot.Markish[] {
  const { colour, symbol } = seriesLooks[look];
  const hollow = { x: soaked.number, y: ratio };
  const filled = { x: behindWall.number, y: ratio };
  return [
    Plot.line([hollow, filled], { x: "x", y: "y", stroke: colour, strokeDasharray: "2 3", clip: true }),
    Plot.dot([hollow], { x: "x", y: "y", stroke: colour, fill: paper, symbol, r: 5 }),
    Plot.dot([filled], { x: "x", y: "y", fill: colour, symbol, r: 6 }),
    wordsAt(filled, name, { fill: colour, stroke: paper, dy: look === "loam" ? 16 : -14 }),
  ];
}
