/** The wetted radius against time: the band, its middle, single soils, and the mean of the class. */
import * as Plot from "@observablehq/plot";
import type { Band } from "../../../model/public/ensemble.ts";
import { entry } from "../../../model/public/plan.ts";
import { fromModel, type UnitSystem } from "../../../model/public/units.ts";
import { faint, ink, moistureColours } from "../../figures/look.ts";
import { chart, endNames, margins, spreadApart } from "../../figures/plotting.ts";
import { HIGHEST_RADIUS, radiusAxes } from "../../figures/radiusAxes.ts";
import type { Stage } from "../../notebook/notebook.ts";

export interface BandFigure {
  band: (Band & { day: number })[];
  /** Of single soils, by day of `band`. */
  soils: readonly (readonly number[])[];
  /** The run of the plan's own soil, the mean of its class. */
  mean: { name: string; points: { day: number; radius: number }[] };
  /** The band belongs to settings that have changed since. */
  isOutdated: boolean;
  units: UnitSystem;
}

export const lastDay = 14;

const bandColour = moistureColours[4];
const medianColour = moistureColours[8];
const thick = { stroke: medianColour, strokeWidth: 3, clip: true };
const thin = { stroke: medianColour, strokeWidth: 0.8, strokeOpacity: 0.22, clip: true };

export function drawBand(figure: BandFigure, label: string, stage: Stage): SVGElement {
  const { band, isOutdated, units } = figure;
  const length = (cm: number) => fromModel(cm, "length", units);
  const opacity = isOutdated ? 0.3 : 1;
  const points = band.map(({ day, low, median, high }) => {
    return { day, low: length(low), median: length(median), high: length(high) };
  });
  return chart(label, stage, {
    height: Math.min(420, Math.max(310, stage.width * 0.62)),
    ...margins(20, stage.width < 500 ? 92 : 104, 40, 44),
    ...radiusAxes(lastDay, units),
    marks: [
      Plot.areaY(points, { x: "day", y1: "low", y2: "high", fill: bandColour, fillOpacity: 0.4 * opacity, clip: true }),
      ...(isOutdated ? [] : [soilLines(figure, length)]),
      Plot.line(points, { x: "day", y: "median", ...thick, strokeOpacity: opacity }),
      Plot.line(
        figure.mean.points.map(({ day, radius }) => ({ day, radius: length(radius) })),
        { x: "day", y: "radius", stroke: ink, strokeWidth: 1.8, strokeDasharray: "6 3", clip: true },
      ),
      ...[true, false].map((isMain) =>
        endNames(
          endLabels(figure, length).filter((label) => label.isMain === isMain),
          { x: lastDay, fontWeight: isMain ? "bold" : "normal" },
        ),
      ),
    ],
  });
}

function soilLines({ band, soils }: BandFigure, length: (cm: number) => number): Plot.Markish {
  const points = soils.flatMap((radii, soil) => band.map(({ day }, k) => ({ soil, day, y: length(entry(radii, k)) })));
  return Plot.line(points, { x: "day", y: "y", z: "soil", ...thin });
}

interface EndLabel {
  name: string;
  y: number;
  colour: string;
  isMain: boolean;
}

/** What the lines are, at their ends, moved apart where these come close together. */
function endLabels({ band, mean, isOutdated }: BandFigure, length: (cm: number) => number): EndLabel[] {
  const last = band.at(-1);
  const gap = length(HIGHEST_RADIUS) / 16;
  const colour = isOutdated ? faint : medianColour;
  const of = (name: string, cm: number, isMain: boolean) => ({ name, y: length(cm), colour, isMain });
  const own = (last: Band) => [
    of("1 of 10 below", last.low, false),
    of("half below", last.median, true),
    of("9 of 10 below", last.high, false),
  ];
  const labels = [
    ...(last ? own(last) : []),
    ...mean.points.slice(-1).map(({ radius }) => ({ name: mean.name, y: length(radius), colour: ink, isMain: false })),
  ];
  const apart = spreadApart(labels, gap);
  const over = Math.max(0, (apart.at(-1)?.y ?? 0) - length(HIGHEST_RADIUS));
  return apart.map((label) => ({ ...label, y: label.y - over }));
}
