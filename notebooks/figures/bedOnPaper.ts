/** The bed on paper, to a round scale, and how to mark it out. */

import type { BedLayout } from "../../model/public/advice.ts";
import type { UnitSystem } from "../../model/public/units.ts";
import { stringTable } from "../notebook/layoutTables.ts";
import type { Block } from "../notebook/notebook.ts";
import { markingWords, reachWords } from "../words/layoutWords.ts";
import { drawBed, paperScaleOf } from "./bedFigure.ts";

export function paperBlocks(bed: BedLayout, units: UnitSystem): Block[] {
  const scale = paperScaleOf(bed.plan.bed.outline);
  return [
    {
      kind: "figure",
      name: "bed-on-paper",
      caption: `On paper 1 : ${scale}, on A4 or Letter, printed at 100 %: hold a ruler to the bar below the bed, which must be ${barWords(scale, units)} long. ${reachWords(bed, units)}.`,
      draw: (stage) =>
        drawBed({ name: "bed-on-paper", bed, units, paperScale: scale }, `The bed from above, 1 to ${scale}`, stage),
    },
    stringTable(bed, units),
    ...markingWords(bed, units),
  ];
}

/** Of a foot, or of half a metre. */
const barWords = (scale: number, units: UnitSystem): string =>
  units === "us"
    ? `${((12 * 25.4) / scale).toFixed(1)} mm (${(12 / scale).toFixed(2)} in)`
    : `${(500 / scale).toFixed(1)} mm`;
