import { pairs } from "d3-array";
import fc from "fast-check";
import { buildPot } from "../../model/pot/buildPot.ts";
import type { OutlinePoint, PotShape } from "../../model/pot/pot.ts";
import { profile } from "./pots.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => x + 0);
const logBetween = (min: number, max: number) => between(Math.log(min), Math.log(max)).map(Math.exp);

/** Radius and depth below the rim, as shares of the pot's size. */
type Side = readonly (readonly [r: number, d: number])[];

const share = between(0.05, 1);
/** As measured: in tenths of a millimetre. */
const hundredths = (x: number) => Math.round(100 * x) / 100 + 0;
const inside = between(0.02, 0.98);
const rising = (values: number[]) => values.toSorted((a, b) => a - b);

const SIDES: Record<string, fc.Arbitrary<Side>> = {
  "with a waist": fc.tuple(share, share, share, inside).map(
    ([top, waist, base, at]): Side => [
      [top, 0],
      [Math.min(top, base) * waist, at],
      [base, 1],
    ],
  ),
  "with a belly": fc.tuple(share, share, inside).map(
    ([top, base, at]): Side => [
      [top, 0],
      [1, at],
      [base, 1],
    ],
  ),
  "that is a cone": fc.constant<Side>([
    [1, 0],
    [0, 1],
  ]),
  "that ends in a point": fc.tuple(share, share, inside).map(
    ([top, widest, at]): Side => [
      [top, 0],
      [widest, at],
      [0, 1],
    ],
  ),
  "with steps": fc
    .array(fc.tuple(share, inside), { minLength: 1, maxLength: 4 })
    .chain((steps) => fc.tuple(fc.constant(steps), share))
    .map(([steps, top]): Side => {
      const depths = rising(steps.map(([, d]) => d));
      const radii = [top, ...steps.map(([r]) => r)];
      return [
        [top, 0],
        ...depths.flatMap(
          (d, k): Side => [
            [radii[k]!, d],
            [radii[k + 1]!, d],
          ],
        ),
        [radii.at(-1)!, 1],
      ];
    }),
  "with a brim": fc.tuple(between(0.05, 0.5), inside, logBetween(0.005, 0.2)).map(
    ([stem, at, thick]): Side => [
      [stem, 0],
      [stem, at],
      [1, Math.min(at + thick / 2, 1)],
      [stem, Math.min(at + thick, 1)],
      [stem, 1],
    ],
  ),
  "of any run": fc.array(fc.tuple(share, between(0, 1)), { minLength: 2, maxLength: 12 }).map((points): Side => {
    const depths = rising(points.map(([, d]) => d));
    return points.map(([r], k) => [r, k === 0 ? 0 : k === points.length - 1 ? 1 : depths[k]!] as const);
  }),
};

const SIZES = {
  usual: { radius: logBetween(3, 30), height: logBetween(5, 60) },
  thin: { radius: logBetween(1, 3), height: logBetween(20, 150) },
  flat: { radius: logBetween(30, 100), height: logBetween(1.5, 10) },
};

/** Profiles that a plan may have: waists, bellies, points, steps, brims; thin, flat; the rim above or below the soil. */
export const anyProfile: fc.Arbitrary<PotShape> = fc
  .constantFrom(...Object.values(SIZES))
  .chain(({ radius, height }) =>
    fc.record({
      radius,
      height,
      side: fc.oneof(...Object.values(SIDES)),
      wall: between(0.05, 0.9),
      /** Rim above the soil, as a share of the height inside, or below it. */
      above: between(-0.5, 0.95),
    }),
  )
  .map(toProfile)
  .filter((shape) => shape !== undefined);

function toProfile({
  radius,
  height,
  side,
  wall,
  above,
}: {
  radius: number;
  height: number;
  side: Side;
  wall: number;
  above: number;
}): PotShape | undefined {
  const points = side.map(([r, d]): OutlinePoint => ({ r: hundredths(r * radius), d: hundredths(d * height) }));
  if (points.some(({ d }, k) => d === points[k + 2]?.d)) return undefined;
  const narrowest = Math.min(...points.slice(0, -1).map(({ r }) => r));
  const wallThickness = hundredths(Math.max(0.2, wall * Math.min(narrowest, height)));
  if (wallThickness >= narrowest) return undefined;
  const { capacity, emptyDepth, fullDepth } = buildPot(profile(points, wallThickness));
  if (!(capacity > 0) || !(emptyDepth > fullDepth)) return undefined;
  const rim = hundredths(-above * emptyDepth);
  return profile(
    points.map(({ r, d }) => ({ r, d: hundredths(d + rim) })),
    wallThickness,
  );
}

/** The part of an outline that lies in the soil. */
export function belowSurface(outline: readonly OutlinePoint[]): OutlinePoint[] {
  return pairs([...outline, outline.at(-1)!]).flatMap(([p, q]) => {
    const own = p.d >= 0 ? [p] : [];
    return p.d < 0 && q.d > 0 ? [...own, { r: p.r + ((q.r - p.r) * -p.d) / (q.d - p.d), d: 0 }] : own;
  });
}
