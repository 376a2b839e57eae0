import { bisector, pairs } from "d3-array";
import { entry, first, last } from "../input/lists.ts";
import { frustumVolume } from "./frustum.ts";
import type { OutlinePoint, Pot } from "./pot.ts";

/** A slice of the inside, a frustum: radius r + slope (d − depth) for water levels d above `depth`. */
interface Slice {
  /** Depth, radius and volume held at the slice's lower end. */
  depth: number;
  r: number;
  volume: number;
  /** Gain of radius per cm of rise. */
  slope: number;
}

/** Least area that `levelOf` takes for an inner base, as a share of the pot's mean inner area. */
const LEAST_FLOOR = 0.01;

/**
 * Level and volume of the inside of a pot: exact for the given inner surface, which runs from the rim down. Above the
 * rim the inside goes on as a cylinder. Below the inner base `volumeAt` gives 0, while `surfaceAt` and `levelAt` (for
 * volumes below 0) go on with the inner base's area (at least `LEAST_FLOOR`, for an inside that ends in a point), so
 * that an iteration that overshoots finds a slope.
 */
export function levelOf(
  inner: readonly OutlinePoint[],
): Omit<Pot, "outline" | "wallThickness" | "wallConductivity" | "plugLeak"> {
  const slices = slicesOf(inner);
  const [rim, floor] = [last(slices), first(slices)];
  const floorArea = Math.max(circle(floor.r), (LEAST_FLOOR * rim.volume) / (floor.depth - rim.depth));
  const sliceAtDepth = (dw: number) => entry(slices, byDepth.right(slices, -dw) - 1);
  return {
    fullDepth: rim.depth,
    emptyDepth: floor.depth,
    capacity: rim.volume,
    volumeAt: (dw) => (dw >= floor.depth ? 0 : volumeIn(sliceAtDepth(dw), dw)),
    levelAt: (volume) =>
      volume <= 0
        ? floor.depth - volume / floorArea
        : levelIn(entry(slices, byVolume.right(slices, volume) - 1), volume),
    surfaceAt: (dw) => (dw >= floor.depth ? floorArea : circle(radiusIn(sliceAtDepth(dw), dw))),
  };
}

const byDepth = bisector((slice: Slice, height: number) => -slice.depth - height);
const byVolume = bisector((slice: Slice, volume: number) => slice.volume - volume);

/** From the inner base up; the last one is the endless cylinder above the rim. */
function slicesOf(inner: readonly OutlinePoint[]): Slice[] {
  const slices: Slice[] = [];
  let volume = 0;
  for (const [low, high] of pairs(inner.toReversed())) {
    const slice = { depth: low.d, r: low.r, volume, slope: (high.r - low.r) / (low.d - high.d) };
    slices.push(slice);
    volume = volumeIn(slice, high.d);
  }
  const rim = first(inner);
  return [...slices, { depth: rim.d, r: rim.r, volume, slope: 0 }];
}

function circle(r: number): number {
  return Math.PI * r * r;
}

function radiusIn({ r, slope, depth }: Slice, dw: number): number {
  return r + slope * (depth - dw);
}

function volumeIn(slice: Slice, dw: number): number {
  return slice.volume + frustumVolume(slice.r, radiusIn(slice, dw), slice.depth - dw);
}

/** The frustum's volume solved for its height: b³ = r³ + 3 slope V / π, then y = 3 V / (π (r² + r b + b²)). */
function levelIn({ depth, r, volume: below, slope }: Slice, volume: number): number {
  const tripled = (3 * (volume - below)) / Math.PI;
  const b = Math.cbrt(r ** 3 + slope * tripled);
  return depth - tripled / (r ** 2 + r * b + b ** 2);
}
