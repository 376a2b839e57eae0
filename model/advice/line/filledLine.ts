/** The plan's line with its tank full and its pots empty, and what else is worked out for it. */

import type { Place } from "../../bed/outline.ts";
import type { Plan } from "../../plan/plan.ts";
import { potPlacesOf } from "../../plan/planBed.ts";
import type { LinedBed } from "../../problems/linedBed.ts";
import { type LineChange, lineChanges } from "./lineChanges.ts";
import {
  type FillStart,
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

/** As text, so that it stands while anything else is changed. */
export const lineText = ({ bed, pot, tank, line }: LinedBed): string => JSON.stringify({ bed, pot, tank, line });

/** The same whatever the height of the tank's outlet, which is what is looked for. */
export const heightlessText = ({ bed, pot, tank, line }: LinedBed): string =>
  lineText({ bed, pot, tank: { ...tank, outletHeight: 0 }, line: { ...line, slack: 0 } });

/** More pots on one line take longer to work out than a person waits: our own choice. */
export const MOST_LINED_POTS = 120;

export function filledLine(text: string, start: FillStart = {}): FilledLine {
  const { plan, pots } = linedBed(text);
  return { plan, pots, filling: lineFilling(plan, pots, start) };
}

export interface KnownLeast {
  /** The `heightlessText` that it belongs to. */
  of: string;
  least: LeastOutletHeight;
}

export function* knownLeast(of: string): Generator<void, KnownLeast> {
  const { plan, pots } = linedBed(of);
  return { of, least: yield* outletHeightSearch(plan, pots) };
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

export function* triedChanges(text: string): Generator<void, TriedChanges> {
  const asItIs = filledLine(text);
  const tried: TriedChange[] = [];
  for (const { name, plan } of lineChanges(asItIs.plan)) {
    yield;
    tried.push({ name, plan, filling: lineFilling(plan, asItIs.pots) });
  }
  return { asItIs, tried };
}

/** An Error, in words for the person, where there are more pots than one line is worked out for. */
function linedBed(text: string): { plan: LinedBed; pots: readonly Place[] } {
  // No other parts of a plan are read.
  const plan = JSON.parse(text) as Plan;
  const pots = potPlacesOf(plan);
  if (pots.length > MOST_LINED_POTS) throw new Error(tooManyWords(pots.length));
  return { plan, pots };
}

const tooManyWords = (pots: number) =>
  `the bed has ${pots} pots, and one line is worked out for ${MOST_LINED_POTS} at most: part the bed, with a valve and a line to each part`;
