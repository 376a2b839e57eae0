/** The plan's line with its tank full and its pots empty, and what else is worked out for it. */

import type { Place } from "../../bed/outline.ts";
import { potPlacesOf } from "../../plan/planBed.ts";
import type { LinedBed } from "../../problems/linedBed.ts";
import { type LineChange, lineChanges } from "./lineChanges.ts";
import {
  type FillStart,
  type HeightlessBed,
  type LeastOutletHeight,
  type LineFilling,
  lineFilling,
  outletHeightSearch,
} from "./lineFilling.ts";

export interface FilledLine {
  plan: LinedBed;
  pots: readonly Place[];
  filling: LineFilling;
}

/** Whether every pot is full within the minutes wanted. */
export const isSoonEnough = ({ plan, filling: { valveMinutes } }: FilledLine): boolean =>
  valveMinutes !== null && valveMinutes <= plan.line.wantedMinutes;

/** More pots on one line take longer to work out than a person waits: our own choice. */
export const MOST_LINED_POTS = 120;

/** How the line fills the pots: minutes and litres by pot. An Error, in words for the person, where there are more pots than one line is worked out for. */
export function filledLine(plan: LinedBed, start: FillStart = {}): FilledLine {
  const pots = linedPots(plan);
  return { plan, pots, filling: lineFilling(plan, pots, start) };
}

export interface KnownLeast {
  of: HeightlessBed;
  least: LeastOutletHeight;
}

/**
 * The least height of the tank's outlet above the soil, cm, at which every pot fills; yields after each filling that is
 * tried.
 */
export function* knownLeast(of: HeightlessBed): Generator<void, KnownLeast> {
  return { of, least: yield* outletHeightSearch(of, linedPots(of)) };
}

export interface TriedChange {
  name: LineChange["name"];
  plan: LinedBed;
  filling: LineFilling;
}

/** The line as it is, and with one thing after another changed. */
export interface TriedChanges {
  asItIs: FilledLine;
  tried: TriedChange[];
}

/** What each change of the line would bring; yields before each filling that is tried. */
export function* triedChanges(bed: LinedBed): Generator<void, TriedChanges> {
  const asItIs = filledLine(bed);
  const tried: TriedChange[] = [];
  for (const { name, plan } of lineChanges(asItIs.plan)) {
    yield;
    tried.push({ name, plan, filling: lineFilling(plan, asItIs.pots) });
  }
  return { asItIs, tried };
}

function linedPots(bed: HeightlessBed): Place[] {
  const pots = potPlacesOf(bed);
  if (pots.length > MOST_LINED_POTS) throw new Error(tooManyWords(pots.length));
  return pots;
}

const tooManyWords = (pots: number) =>
  `the bed has ${pots} pots, and one line is worked out for ${MOST_LINED_POTS} at most: part the bed, with a valve and a line to each part`;
