import { pairs, range } from "d3-array";
import { first, last } from "../input/lists.ts";
import type { OutlinePoint, PotShape } from "./pot.ts";

/** Chords per arc of a jar: area and volume then lie within 0.02 % of the smooth curve's. */
const CHORDS_PER_ARC = 64;

/** Outer surface of a pot, (r, d) in cm, from the rim down and in to the axis. */
export function outlineOf(shape: PotShape): OutlinePoint[] {
  const wall = wallOutline(shape);
  const base = last(wall);
  return base.r > 0 ? [...wall, { r: 0, d: base.d }] : wall;
}

/** Outer radius of the pot at a depth, both cm: of its rim above it, 0 below its base. */
export function wallRadiusAt(pot: PotShape, depth: number): number {
  const outline = outlineOf(pot);
  const rim = first(outline);
  if (depth <= rim.d) return rim.r;
  for (const [p, q] of pairs(outline)) {
    if (depth <= q.d && q.d > p.d) return p.r + ((q.r - p.r) * (depth - p.d)) / (q.d - p.d);
  }
  return 0;
}

function wallOutline(shape: PotShape): OutlinePoint[] {
  switch (shape.shape) {
    case "cylinder":
      return straightSide(shape.outerRadius, shape.outerRadius, shape);
    case "tapered":
      return straightSide(shape.rimRadius, shape.baseRadius, shape);
    case "jar":
      return jarOutline(shape);
    case "profile":
      return shape.points;
  }
}

function straightSide(rimRadius: number, baseRadius: number, { rimDepth, outerDepth }: PotShape): OutlinePoint[] {
  return [
    { r: rimRadius, d: rimDepth },
    { r: baseRadius, d: outerDepth },
  ];
}

type Jar = Extract<PotShape, { shape: "jar" }>;

/** A jar's outer surface without its flat base. */
function jarOutline(jar: Jar): OutlinePoint[] {
  return [...shoulder(jar), ...bowl(jar)];
}

/** Half a cosine wave, upright at the neck and at the belly; the belly itself is left to `bowl`. */
function shoulder({ neckRadius, bellyRadius, bellyDepth, rimDepth }: Jar): OutlinePoint[] {
  return range(CHORDS_PER_ARC).map((i) => ({
    r: neckRadius + ((bellyRadius - neckRadius) * (1 - Math.cos((Math.PI * i) / CHORDS_PER_ARC))) / 2,
    d: rimDepth + ((bellyDepth - rimDepth) * i) / CHORDS_PER_ARC,
  }));
}

/** A quarter of an ellipse, upright at the belly and level where it meets the flat base. */
function bowl({ bellyRadius, bellyDepth, baseRadius, outerDepth }: Jar): OutlinePoint[] {
  const arc = range(CHORDS_PER_ARC).map((i) => {
    const angle = (Math.PI / 2) * (i / CHORDS_PER_ARC);
    return {
      r: baseRadius + (bellyRadius - baseRadius) * Math.cos(angle),
      d: bellyDepth + (outerDepth - bellyDepth) * Math.sin(angle),
    };
  });
  return [...arc, { r: baseRadius, d: outerDepth }];
}
