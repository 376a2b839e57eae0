/** The way to the slowest pot: where its head is lost, and how high it runs. */

import type { FilledLine } from "../../../model/public/advice.ts";
import { CM_PER_M, formatBoth, type UnitSystem } from "../../../model/public/units.ts";
import type { Block } from "../../notebook/notebook.ts";
import { listed } from "../../words/words.ts";
import { drawLosses, lossStages } from "./lossFigure.ts";
import { drawProfile, toldPlaces } from "./profileFigure.ts";
import { lossTable } from "./tables.ts";

/** Height of the full tank's water, m above the soil. */
const tankHead = ({ plan: { tank } }: FilledLine) => (tank.outletHeight + tank.waterHeight) / CM_PER_M;

export function lossBlocks(filled: FilledLine, units: UnitSystem): Block[] {
  const { way, slowest } = filled.filling;
  const stages = lossStages(way.losses, filled.plan.line.emitter !== null);
  const available = tankHead(filled) - filled.plan.line.tubeEndHeight / CM_PER_M;
  const greatest = stages.reduce((most, stage) => (stage.head > most.head ? stage : most));
  const most =
    greatest.head > 0
      ? `Most goes at “${greatest.name}”, ${Math.round((100 * greatest.head) / available)} %: change that first.`
      : "No water flows there, so none is lost.";
  return [
    {
      kind: "figure",
      name: "losses",
      caption: `Where the head is lost on the way to pot ${slowest + 1}, the slowest, with the tank full and the pots empty. ${most}`,
      draw: (stage) =>
        drawLosses(stages, available, units, `Head lost on the way to pot ${slowest + 1}, by part of the line`, stage),
    },
    lossTable(stages, available, slowest, units),
  ];
}

export function profileBlocks(filled: FilledLine, units: UnitSystem): Block[] {
  const { way, slowest } = filled.filling;
  const label = `Heights of the pipe and of the level line on the way to pot ${slowest + 1}`;
  return [
    {
      kind: "figure",
      name: "profile",
      caption: `Heights on the way from the tank to pot ${slowest + 1}. The level line tells how high water would stand in a pipe let upright into the line: where it lies above the pipe, water presses outwards; where it falls below, air is drawn in and the flow may stop.`,
      draw: (stage) => drawProfile(way.profile, tankHead(filled), units, label, stage),
    },
    ...placeWords(filled, units),
  ];
}

function placeWords({ filling, plan }: FilledLine, units: UnitSystem): string[] {
  const { sags, highPoints, underSuction } = filling.way.profile;
  const length = (metres: number) => formatBoth(100 * metres, "length", units);
  const distance = (metres: number) => formatBoth(100 * metres, "distance", units);
  const places = (all: readonly { along: number; depth: number }[], how: string) =>
    listed(all.map(({ along, depth }) => `${distance(along)} from the tank (${length(depth)} ${how})`));
  const lows = toldPlaces(sags);
  const highs = toldPlaces(highPoints);
  const tankLevel = plan.tank.outletHeight + plan.tank.waterHeight;
  const tooHigh = underSuction.filter(({ height }) => 100 * height > tankLevel);
  return [
    lows.length > 0
      ? `Low places, where water, dirt and ice stay: ${places(lows, "below what is on either side")}. Put a drain there, and open it before frost.`
      : "No low place holds water when the line is drained.",
    highs.length > 0
      ? `High places, where air gathers and slows the flow: ${places(highs, "above what is on either side")}. Lay the pipe so that it falls all the way, or rises all the way, to a place where air can leave.`
      : "No high place keeps air on this way.",
    ...(underSuction.length > 0
      ? [
          `Under suction: ${listed(underSuction.map(({ along }) => `${distance(along)} from the tank`))}. Air drawn in through joints there stops the flow sooner or later${tooHigh.length > 0 ? "; a place above the tank’s water lets nothing pass at all until the pipe is filled by hand" : ""}.`,
        ]
      : []),
  ];
}
