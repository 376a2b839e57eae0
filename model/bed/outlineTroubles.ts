/** Why a list of corners is not the outline of a bed. */
import { entry } from "../input/lists.ts";
import type { Place } from "./outline.ts";

/** Corners and sides count from 0; a side has the number of the corner it begins at. */
export type OutlineTrouble =
  /** All corners on one line. */
  { kind: "flat" } | { kind: "sameCorner"; corners: [number, number] } | { kind: "crossing"; sides: [number, number] };

/** cm; corners nearer to each other are one, and a bed no wider is none. */
const HAIR = 0.1;
/** Sine of an angle that is none. */
const ROUNDING = 1e-9;

/** Two sides cross, too, where they only touch, or run back along each other. */
export function outlineTroubles(points: readonly Place[]): OutlineTrouble[] {
  const same = pairsOf(points).filter(([i, j]) => isSame(entry(points, i), entry(points, j)));
  if (same.length > 0) return same.map((corners) => ({ kind: "sameCorner", corners }));
  if (isFlat(points)) return [{ kind: "flat" }];
  return pairsOf(points)
    .filter((sides) => isCrossing(points, sides))
    .map((sides) => ({ kind: "crossing", sides }));
}

/** Name of a corner by its index from 0: A, B, … Z, then A2, B2, …. */
export const cornerName = (index: number): string => {
  const letter = String.fromCharCode("A".charCodeAt(0) + (index % 26));
  return index < 26 ? letter : `${letter}${Math.floor(index / 26) + 1}`;
};

const pairsOf = (points: readonly Place[]) =>
  points.flatMap((_, i) => points.slice(i + 1).map((_, k): [number, number] => [i, i + 1 + k]));

const isSame = (a: Place, b: Place) => Math.hypot(b.x - a.x, b.y - a.y) < HAIR;

/** Whether all corners lie on the line from the first corner to the one farthest from it. */
function isFlat(points: readonly Place[]): boolean {
  const [a] = points as [Place];
  const far = points.reduce((b, c) => (Math.hypot(c.x - a.x, c.y - a.y) > Math.hypot(b.x - a.x, b.y - a.y) ? c : b));
  const length = Math.hypot(far.x - a.x, far.y - a.y);
  return points.every((c) => Math.abs(turn(a, far, c)) < HAIR * length);
}

function isCrossing(points: readonly Place[], [i, j]: [number, number]): boolean {
  const corner = (k: number) => entry(points, k % points.length);
  const [a, b, c, d] = [corner(i), corner(i + 1), corner(j), corner(j + 1)];
  if (b === c) return runsBack(a, b, d);
  return d === a ? runsBack(c, a, b) : meet(a, b, c, d);
}

/** Whether the way from b to c leads back over the way from a to b. */
function runsBack(a: Place, b: Place, c: Place): boolean {
  const ahead = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
  return ahead < 0 && Math.abs(turn(a, b, c)) < ROUNDING * -ahead;
}

function meet(a: Place, b: Place, c: Place, d: Place): boolean {
  const [s, t, u, v] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)].map(Math.sign) as number[];
  if (s !== t && u !== v) return true;
  return (
    (s === 0 && isWithin(a, b, c)) ||
    (t === 0 && isWithin(a, b, d)) ||
    (u === 0 && isWithin(c, d, a)) ||
    (v === 0 && isWithin(c, d, b))
  );
}

/** Of a place on the line through a and b. */
const isWithin = (a: Place, b: Place, { x, y }: Place) =>
  Math.min(a.x, b.x) <= x && x <= Math.max(a.x, b.x) && Math.min(a.y, b.y) <= y && y <= Math.max(a.y, b.y);

/** Positive where the way over the three turns from x to y. */
const turn = (a: Place, b: Place, c: Place) => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
