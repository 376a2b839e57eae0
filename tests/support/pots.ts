import { range } from "d3-array";
import fc from "fast-check";
import type { OutlinePoint, PotShape } from "../../model/pot/pot.ts";

type Shape<Name> = Extract<PotShape, { shape: Name }>;

const common = { wallThickness: 1, wallConductivity: 0.05, outerDepth: 20, rimDepth: 0, plugLeakLitres: 0 };

/** Straight pot, 20 cm deep, 20 cm wide outside, wall 1 cm of 0.05 cm/day. */
export const cylinder: Shape<"cylinder"> = { ...common, shape: "cylinder", outerRadius: 10 };

export const tapered: Shape<"tapered"> = { ...common, shape: "tapered", rimRadius: 12, baseRadius: 7 };

export const jar: Shape<"jar"> = {
  ...common,
  shape: "jar",
  neckRadius: 5,
  bellyRadius: 14,
  bellyDepth: 11,
  baseRadius: 6,
};

export function profile(points: OutlinePoint[], wallThickness = 1): Shape<"profile"> {
  return { ...common, shape: "profile", points, rimDepth: points[0]!.d, outerDepth: points.at(-1)!.d, wallThickness };
}

/** Points on a circle of the given radius, centred on the axis at depth 0, between two angles below the horizontal. */
export function circlePoints(radius: number, fromAngle: number, count = 400): OutlinePoint[] {
  const inner = range(count).map((i) => fromAngle + ((Math.PI / 2 - fromAngle) * i) / count);
  return [...inner.map((a) => ({ r: radius * Math.cos(a), d: radius * Math.sin(a) })), { r: 0, d: radius }];
}

/** Without −0, which would not equal the 0 of a sum. */
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => x + 0);

const parts = fc.record({
  common: fc.record({
    wallThickness: between(0.4, 3),
    wallConductivity: between(0.001, 1),
    rimDepth: between(-6, 4),
    plugLeakLitres: fc.constant(0),
  }),
  height: between(5, 60),
  mouth: between(1, 25),
  widening: between(0, 20),
  base: between(0, 1),
  bellyAt: between(0.15, 0.85),
  bumps: fc.array(between(0, 20), { minLength: 1, maxLength: 8 }),
  shape: fc.constantFrom<PotShape["shape"][]>("cylinder", "tapered", "jar", "profile"),
});

/** Any pot that can be made: inside radius and depth at least a centimetre, rim above, at or below the soil surface. */
export const anyPot = parts.map(assemble);

function assemble({
  common,
  height,
  mouth,
  widening,
  base,
  bellyAt,
  bumps,
  shape,
}: typeof parts extends fc.Arbitrary<infer Parts> ? Parts : never): PotShape {
  const pot = { ...common, outerDepth: common.rimDepth + height };
  const narrow = common.wallThickness + mouth;
  switch (shape) {
    case "cylinder":
      return { ...pot, shape, outerRadius: narrow };
    case "tapered":
      return { ...pot, shape, rimRadius: narrow + widening * bellyAt, baseRadius: narrow + widening * base };
    case "jar": {
      const [bellyRadius, bellyDepth] = [narrow + widening, pot.rimDepth + bellyAt * height];
      return { ...pot, shape, neckRadius: narrow, bellyRadius, bellyDepth, baseRadius: base * bellyRadius };
    }
    case "profile": {
      const side = bumps.map((bump, i) => ({ r: narrow + bump, d: pot.rimDepth + (height * i) / bumps.length }));
      return { ...pot, shape, points: [...side, { r: base < 0.3 ? 0 : base * narrow, d: pot.outerDepth }] };
    }
  }
}
