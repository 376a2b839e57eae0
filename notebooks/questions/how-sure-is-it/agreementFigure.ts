/** The share of soils in which each distance from the pot's wall can be sown. */
import * as Plot from "@observablehq/plot";
import { AGREED_SHARE, type SowingAgreement, type Stretch } from "../../../model/public/ensemble.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { faint, ink, moistureColours, terracotta } from "../../figures/look.ts";
import { axisLabel, bold, chart, margins, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";
import { AGREED_WORDS } from "../../words/bandWords.ts";

/** End of the axis, cm (somewhat over 20 in): stays put while a slider moves. */
export const rulerLength = 52;

const colour = moistureColours[3];
const agreedColour = moistureColours[7];

export function drawAgreement(agreement: SowingAgreement, act: string, units: UnitSystem, stage: Stage): SVGElement {
  const length = (cm: number) => fromModel(cm, "length", units);
  const top = 100 * AGREED_SHARE;
  return chart("Share of soils in which each distance from the pot’s wall can be sown", stage, {
    height: Math.min(360, Math.max(270, stage.width * 0.5)),
    ...margins(20, stage.width < 500 ? 78 : 84, 42, 44),
    x: { domain: [0, length(rulerLength)], label: axisLabel("distance from the pot’s wall", "length", units) },
    y: { domain: [0, 100], label: "share of soils (%)", ticks: 5, grid: true },
    marks: [
      Plot.areaY(cornersOf(agreement.shares, length), { x: "x", y1: 0, y2: "share", fill: colour, clip: true }),
      ...agreedMarks(agreement, act, length),
      Plot.ruleX([0], { stroke: terracotta, strokeWidth: 5 }),
      Plot.ruleY([top], { stroke: ink, strokeDasharray: "5 3" }),
      Plot.text([AGREED_WORDS], { x: length(rulerLength), y: top, dx: 5, textAnchor: "start" }),
      Plot.ruleY([0], { stroke: faint }),
    ],
  });
}

interface Corner {
  x: number;
  share: number;
}

/** The outline of the shares: up and down at each limit. */
function cornersOf(shares: readonly Stretch[], length: (cm: number) => number): Corner[] {
  return shares.flatMap(({ from, to, share }) => [from, to].map((cm) => ({ x: length(cm), share: 100 * share })));
}

/** The stretch that is agreed on, named above the shares. */
function agreedMarks(
  { shares, outcome }: SowingAgreement,
  act: string,
  length: (cm: number) => number,
): Plot.Markish[] {
  if (outcome.kind !== "agreed" || outcome.stretch.from > rulerLength) return [];
  const { from, to } = outcome.stretch;
  const agreed = shares.filter((stretch) => stretch.from >= from && stretch.to <= to);
  return [
    Plot.areaY(cornersOf(agreed, length), { x: "x", y1: 0, y2: "share", fill: agreedColour, clip: true }),
    wordsAt({ x: length(from), y: 100 }, act, { ...bold(agreedColour), dy: 8, textAnchor: "start" }),
  ];
}
