/** The line as a tree: pieces of pipe from the tank's outlet to the pots. */
import { entry } from "../input/lists.ts";
import { GRAVITY } from "../units/factors.ts";
import type { Loss, Pipe } from "./pipe.ts";
import { sectionArea, velocityLoss } from "./pipe.ts";

export const PIECE_KINDS = ["main", "riser", "cross pipe", "row pipe", "tube"] as const;

export type PieceKind = (typeof PIECE_KINDS)[number];

/** A pipe of the tree and the fittings at its far end, the end away from the tank. */
export interface Piece extends Pipe {
  name: string;
  kind: PieceKind;
  /** The piece it goes on from, which stands before it in the list; null: the tank's outlet. */
  parent: number | null;
  /** Height of its far end. */
  height: number;
  /** Places on its way where it does not run straight from end to end; `along` counts from its near end. */
  via: readonly { along: number; height: number }[];
  /** Where water leaves at its far end. */
  outlet: Outlet | null;
}

export interface Outlet {
  pot: number;
  /** q = coefficient · h^exponent (m³/s, m; 0.1 to 1); null: an open end, which loses its velocity head. */
  emitter: { coefficient: number; exponent: number } | null;
}

export interface Line {
  pieces: readonly Piece[];
  /** Of the water. */
  celsius: number;
}

/** What the solver reads of a line; arrays have one entry per piece. */
export interface Network extends Line {
  /** −1: the tank's outlet. */
  parents: Int32Array;
  /** The highest place between the tank and a piece's far end, this included. */
  crests: Float64Array;
  /** The pieces at whose ends water leaves. */
  outlets: Int32Array;
  /** Per outlet, s/m²: its slope in a Newton step is at least that, so that one at rest can be divided by. */
  restSlopes: Float64Array;
}

/** Head, m, that an outlet nearly at rest loses. */
const NEARLY_AT_REST = 1e-9;

/** A RangeError where a piece stands before its parent or is no pipe: what people type is checked long before. */
export function networkOf(line: Line): Network {
  const { pieces } = line;
  pieces.forEach(checkPiece);
  const parents = Int32Array.from(pieces, ({ parent }) => parent ?? -1);
  const crests = new Float64Array(pieces.length);
  pieces.forEach(({ via, height, parent }, p) => {
    const before = parent === null ? Number.NEGATIVE_INFINITY : entry(crests, parent);
    crests[p] = Math.max(before, height, ...via.map((place) => place.height));
  });
  const outlets = Int32Array.from(pieces.flatMap(({ outlet }, p) => (outlet ? [p] : [])));
  const restSlopes = Float64Array.from(outlets, (p) => restSlope(entry(pieces, p)));
  return { ...line, parents, crests, outlets, restSlopes };
}

const restSlope = (piece: Piece) => outletLoss(piece, outletFlowUnder(piece, NEARLY_AT_REST)).slope;

/** Rougher than that, relative to the diameter, no friction factor is known (Moody's chart ends there, from memory). */
const MOST_RELATIVE_ROUGHNESS = 0.05;

function checkPiece({ name, parent, length, innerDiameter, roughness, minorLoss, outlet }: Piece, index: number) {
  const check = (holds: boolean, rule: string) => {
    if (!holds) throw new RangeError(`${name}: ${rule}`);
  };
  check(parent === null || (parent >= 0 && parent < index), `its parent, piece ${parent}, must stand before it`);
  check(innerDiameter > 0, `inner diameter ${innerDiameter} m; it must be greater than 0`);
  check(length >= 0 && length < Number.POSITIVE_INFINITY, `length ${length} m; it must be 0 or more`);
  check(minorLoss >= 0, `minor loss ${minorLoss}; it must be 0 or more`);
  const relative = roughness / innerDiameter;
  check(relative >= 0 && relative <= MOST_RELATIVE_ROUGHNESS, `roughness ${roughness} m; at most 5 % of its diameter`);
  const emitter = outlet?.emitter;
  if (emitter) check(emitter.coefficient > 0 && emitter.exponent >= 0.1 && emitter.exponent <= 1, "no emitter's law");
}

/** The pieces from the tank to the far end of `piece`, in the water's order. */
export function pathTo({ pieces }: Line, piece: number): number[] {
  const path: number[] = [];
  for (let p: number | null = piece; p !== null; p = entry(pieces, p).parent) path.unshift(p);
  return path;
}

/** Head lost where water leaves, m, odd in q: the emitter's own, (q/coefficient)^(1/exponent), or the velocity head. */
export function outletLoss(piece: Piece, q: number): Loss {
  const emitter = piece.outlet?.emitter;
  if (!emitter) return velocityLoss(piece, 1, q);
  const power = 1 / emitter.exponent;
  const share = Math.abs(q) / emitter.coefficient;
  return {
    loss: Math.sign(q) * share ** power,
    slope: (power / emitter.coefficient) * share ** (power - 1),
  };
}

/** The inverse, for a head of 0 or more: what leaves, m³/s, where it stands before the outlet. */
export function outletFlowUnder(piece: Piece, head: number): number {
  const emitter = piece.outlet?.emitter;
  if (emitter) return emitter.coefficient * head ** emitter.exponent;
  return sectionArea(piece) * Math.sqrt(2 * GRAVITY * head);
}
