/** What a gravity line is made of: tubes to cut, and fittings. */

import { group, sum } from "d3-array";
import type { Place } from "../../bed/outline.ts";
import { entry, first } from "../../input/lists.ts";
import { type Line, PIECE_KINDS, type Piece, type PieceKind } from "../../line/network.ts";
import { bedLine, type LinedBed } from "../../problems/linedBed.ts";
import { CM_PER_M, MM_PER_CM, MM_PER_M } from "../../units/factors.ts";
import { potJoints } from "./potJoints.ts";

export type TubeKind = PieceKind | "tube between pots";

/** Pieces of one kind, bore and length. */
export interface Cut {
  kind: TubeKind;
  /** Inner diameter, mm. */
  bore: number;
  /** Of each, with slack, cm. */
  length: number;
  count: number;
}

export interface Fitting {
  name:
    | "strainer"
    | "valve"
    | "elbow"
    | "tee"
    | "end stop"
    | "tube connector"
    | "emitter"
    | "float"
    | "seal for a tube through a wall";
  count: number;
}

export interface LineParts {
  cuts: Cut[];
  /** All cuts of a kind, cm. */
  tubes: { kind: TubeKind; bore: number; pieces: number; length: number }[];
  /** None that are not needed. */
  fittings: Fitting[];
}

/**
 * What to buy and cut for a line: lengths in cm, bores in mm. A row's pipe is one piece, into which the small tubes'
 * connectors go.
 */
export function lineParts(plan: LinedBed, pots: readonly Place[]): LineParts {
  const { line, rows } = bedLine(plan, pots);
  const longer = 1 + plan.line.slack;
  const joints = jointCuts(plan, pots, rows);
  const cuts = alike([...pipeCuts(line), ...joints].map((cut) => ({ ...cut, length: longer * cut.length })));
  return { cuts, tubes: totals(cuts), fittings: fittingsOf(plan, line, joints.length) };
}

type Single = Omit<Cut, "count">;

function pipeCuts({ pieces }: Line): Single[] {
  const starts: number[] = [];
  for (const [p, { kind, parent }] of pieces.entries()) {
    const isStart = parent === null || kind !== "row pipe" || entry(pieces, parent).kind !== kind;
    starts.push(isStart ? p : entry(starts, parent));
  }
  const runs = [...group(pieces, (_, p) => starts[p]).values()];
  return runs.map((run) => ({
    kind: first(run).kind,
    bore: first(run).innerDiameter * MM_PER_M,
    length: CM_PER_M * sum(run, ({ length }) => length),
  }));
}

function jointCuts(plan: LinedBed, pots: readonly Place[], rows: readonly number[][]): Single[] {
  const bore = plan.line.joints?.bore ?? 0;
  return potJoints(plan, pots, rows).map(({ length }) => ({ kind: "tube between pots", bore, length }));
}

const KINDS: readonly TubeKind[] = [...PIECE_KINDS, "tube between pots"];

/** Counts cuts that are the same to a millimetre: in the water's order, the longest of a kind first. */
function alike(cuts: readonly Single[]): Cut[] {
  return KINDS.flatMap((kind) => {
    const groups = group(
      cuts.filter((cut) => cut.kind === kind),
      ({ length }) => Math.round(MM_PER_CM * length),
    );
    return [...groups.values()]
      .map((same) => ({ ...first(same), count: same.length }))
      .sort((a, b) => b.length - a.length);
  });
}

function totals(cuts: readonly Cut[]): LineParts["tubes"] {
  return [...group(cuts, ({ kind }) => kind)].map(([kind, own]) => ({
    kind,
    bore: first(own).bore,
    pieces: sum(own, ({ count }) => count),
    length: sum(own, ({ count, length }) => count * length),
  }));
}

function fittingsOf({ line }: LinedBed, { pieces }: Line, joints: number): Fitting[] {
  const tubes = pieces.filter(({ kind }) => kind === "tube").length;
  const ends = pieces.flatMap((piece, p) => (piece.kind === "tube" ? [] : [endFitting(piece, goingOn(pieces, p))]));
  const count = (name: Fitting["name"]) => ends.filter((end) => end === name).length;
  const all: Fitting[] = [
    { name: "strainer", count: 1 },
    { name: "valve", count: 1 },
    { name: "elbow", count: count("elbow") },
    { name: "tee", count: count("tee") },
    { name: "end stop", count: count("end stop") },
    { name: "tube connector", count: tubes },
    { name: "emitter", count: line.emitter ? tubes : 0 },
    { name: "float", count: line.whenFull === "stop" ? tubes : 0 },
    { name: "seal for a tube through a wall", count: 2 * joints },
  ];
  return all.filter((each) => each.count > 0);
}

/** Pipes, not small tubes, that go on from a piece's far end. */
const goingOn = (pieces: readonly Piece[], p: number) =>
  pieces.filter(({ parent, kind }) => parent === p && kind !== "tube");

/** What stands where a pipe ends; nothing where a row's pipe runs on. */
function endFitting({ kind }: Piece, [next, ...others]: readonly Piece[]): Fitting["name"] | null {
  if (!next) return "end stop";
  if (others.length > 0) return "tee";
  return next.kind === kind ? null : "elbow";
}
