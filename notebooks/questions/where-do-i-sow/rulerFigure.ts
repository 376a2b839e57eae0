/** The sowing band of several soils along one ruler that starts at the pot's wall. */
import * as Plot from "@observablehq/plot";
import type { RulerMark, SowingAdvice } from "../../../model/public/advice.ts";
import { bothSystems, fromModel, type UnitSystem, unitOf } from "../../../model/public/units.ts";
import { ink, moistureColours, paper, terracotta } from "../../figures/look.ts";
import { chart, margins, roundTicks, wordsAt } from "../../figures/plotting.ts";
import type { Stage } from "../../notebook/notebook.ts";

/** How far the ruler reaches, cm (somewhat over 20 in): fixed, so that nothing jumps. */
export const rulerLength = 52;

/** Between the numbers of the ruler, in the person's unit. */
const step = { metric: 5, us: 2 };

export const rulerDistances = (units: UnitSystem): number[] => roundTicks(0, rulerLength, step[units], "length", units);

export interface Bar {
  name: string;
  words: string;
  advice: SowingAdvice;
  marks: RulerMark[];
  /** Of settings that have changed since; drawn pale until its own run is there. */
  isOutdated: boolean;
}

/** Of moisture, from soaked to dry: light enough apart for a black and white print. */
export const zoneColours = {
  soaked: moistureColours[8],
  good: moistureColours[4],
  dry: moistureColours[0],
  wall: "#e3c3ae",
};

/** Pixels from the top. */
const rulerTop = 22;
const rulerHeight = 48;
const firstBar = rulerTop + rulerHeight + 12;
const barPitch = 74;
const barTop = 22;
const barHeight = 22;
const small = { dx: 4, textAnchor: "start", fontSize: 11 } as const;

export function drawRuler(bars: Bar[], act: string, units: UnitSystem, label: string, stage: Stage): SVGElement {
  const potWidth = 18;
  const right = 22;
  const pixelsPerCm = (stage.width - potWidth - right) / rulerLength;
  const height = firstBar + bars.length * barPitch + 18;
  return chart(label, stage, {
    height,
    ...margins(0, right, 0, 0),
    x: { domain: [-potWidth / pixelsPerCm, rulerLength], axis: null },
    y: { domain: [0, height], range: [0, height], axis: null },
    marks: [
      ...wallMarks(potWidth / pixelsPerCm, height),
      ...rulerMarks(units),
      ...bars.flatMap((bar, i) => barMarks(bar, firstBar + i * barPitch, act, pixelsPerCm)),
      wordsAt({ x: 0, y: height - 8 }, "number under a bar: first day that is moist enough there", small),
    ],
  });
}

function wallMarks(width: number, height: number): Plot.Markish[] {
  return [
    Plot.rect([0], { x1: -width, x2: 0, y1: 0, y2: height, fill: terracotta }),
    wordsAt({ x: -width / 2, y: height / 2 }, "clay pot", { rotate: -90, fill: paper, fontSize: 12 }),
  ];
}

/** The person's unit along the upper edge, the other one along the lower. */
function rulerMarks(units: UnitSystem): Plot.Markish[] {
  const [own, other] = bothSystems(units);
  return [
    Plot.text(["distance from the pot’s wall"], { x: 0, y: 9, dx: 6, textAnchor: "start", fontSize: 12 }),
    Plot.rect([0], { x1: 0, x2: rulerLength, y1: rulerTop, y2: rulerTop + rulerHeight, fill: "#fffdf7", stroke: ink }),
    ...scaleMarks(own, rulerTop, 1),
    ...scaleMarks(other, rulerTop + rulerHeight, -1),
  ];
}

function scaleMarks(system: UnitSystem, edge: number, inward: 1 | -1): Plot.Markish[] {
  const numbers = roundTicks(0, rulerLength, step[system], "length", system).filter((cm) => cm > 0);
  const ticks = (every: number, length: number) =>
    Plot.ruleX(roundTicks(0, rulerLength, every, "length", system), {
      x: (cm: number) => cm,
      y1: edge,
      y2: edge + inward * length,
      stroke: ink,
    });
  const numberOf = (cm: number) => String(Math.round(fromModel(cm, "length", system)));
  return [
    ticks(1, 4),
    ticks(step[system], 8),
    Plot.text(numbers, {
      x: (cm: number) => cm,
      y: edge + inward * 16,
      text: (cm: number) => (cm === numbers[0] ? `${numberOf(cm)} ${unitOf("length", system)}` : numberOf(cm)),
      fontSize: 12,
    }),
  ];
}

interface Zone {
  from: number;
  to: number;
  colour: string;
  label: string;
}

function zonesOf(advice: SowingAdvice, act: string): Zone[] {
  if (advice.kind === "everywhere")
    return drawn([
      { from: 0, to: advice.innerLimit, colour: zoneColours.soaked, label: "too near" },
      { from: advice.innerLimit, to: rulerLength, colour: zoneColours.good, label: act },
    ]);
  const { inner, outer, innerCause } = advice.kind === "band" ? advice.band : advice;
  const near =
    innerCause === "soaked"
      ? { colour: zoneColours.soaked, label: "too wet" }
      : { colour: zoneColours.wall, label: "too near" };
  return drawn([
    { from: 0, to: Math.min(inner, outer), ...near },
    { from: inner, to: outer, colour: zoneColours.good, label: act },
    { from: outer, to: rulerLength, colour: zoneColours.dry, label: "too dry" },
  ]);
}

/** The part of each zone that lies on the ruler. */
const drawn = (zones: Zone[]) =>
  zones
    .map((zone) => ({ ...zone, from: Math.min(zone.from, rulerLength), to: Math.min(zone.to, rulerLength) }))
    .filter(({ from, to }) => to > from);

function barMarks({ name, words, advice, marks, isOutdated }: Bar, top: number, act: string, pixelsPerCm: number) {
  const opacity = isOutdated ? 0.35 : 1;
  const zones = zonesOf(advice, act);
  const heading = { dx: 6, textAnchor: "start", fontWeight: "bold", fontSize: 12, opacity } as const;
  const [y1, y2] = [top + barTop, top + barTop + barHeight];
  const fits = ({ from, to, label }: Zone) => (to - from) * pixelsPerCm > 6 * label.length + 6;
  const isDark = ({ colour }: Zone) => colour === zoneColours.soaked;
  const labels = (dark: boolean) =>
    Plot.text(
      zones.filter((zone) => fits(zone) && isDark(zone) === dark),
      {
        x: ({ from, to }: Zone) => (from + to) / 2,
        y: (y1 + y2) / 2,
        text: "label",
        fill: dark ? paper : ink,
        fontSize: 12,
        opacity,
      },
    );
  return [
    wordsAt({ x: 0, y: top + barTop / 2 + 1 }, `${name}: ${isOutdated ? "being worked out …" : words}`, heading),
    Plot.rect(zones, { x1: "from", x2: "to", y1, y2, fill: "colour", stroke: ink, strokeWidth: 0.8, opacity }),
    labels(true),
    labels(false),
    Plot.ruleX(marks, { x: "distance", y1: y2, y2: y2 + 4, stroke: ink, opacity }),
    ...[true, false].map((isAtWall) =>
      Plot.text(
        marks.filter(({ distance }) => (distance === 0) === isAtWall),
        {
          x: "distance",
          y: y2 + 12,
          // Beside the pot and not on it.
          ...(isAtWall && { dx: 2, textAnchor: "start" }),
          text: markText,
          fontSize: 11,
          opacity,
        },
      ),
    ),
  ];
}

/** Rounded up to half days, the steps in which sowing days are tried; a dash where it never comes. */
const markText = ({ firstMoistDay }: RulerMark) =>
  firstMoistDay === null ? "–" : String(Math.ceil(2 * firstMoistDay) / 2);
