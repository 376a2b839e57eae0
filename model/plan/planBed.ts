/** The bed of a plan seen from above, resolved: its outline, and where its pots and plants stand. */
import { max } from "d3-array";
import type { BedOutline, Place } from "../bed/outline.ts";
import { groundPerPot, type PotGrid } from "../bed/potGrid.ts";
import { outlineOf } from "../pot/outline.ts";
import type { PotShape } from "../pot/pot.ts";
import type { Quantity } from "../units/units.ts";
import type { CheckedPlan } from "./planSchema.ts";

/** cm. */
export interface BedPlan {
  outline: BedOutline;
  /** From the middle of a pot to the middle of the next. */
  spacing: number;
  grid: PotGrid;
  /** Degrees by which the rows of the grid are turned from the bed's x axis towards its y axis. */
  rowAngle: number;
  /** Least distance from the middle of a pot to the bed's edge. */
  edgeDistance: number;
  /** Where a person has put the pots; null: by the grid. */
  potPlaces: Place[] | null;
  plantSpacing: number;
}

export interface PlacedPots {
  bed: BedPlan;
  /** Ground that each pot serves, cm²: what the grid gives it at the bed's spacing. */
  areaPerPot: number;
}

/** cm; its length is our own choice. */
const BED = { length: 480, width: 120 };
/** cm; our own choice. */
const SPACING = 70;
/** Spacing of a wide pot over its widest radius: our own choice. */
const ROOMY = 3.5;
/** A pot's distance from the bed's edge over the spacing: our own choice. */
const EDGE_SHARE = 1 / 3;

type Convert = (quantity: Quantity) => (value: number) => number;

export function toBed(checked: CheckedPlan, pot: PotShape, to: Convert): PlacedPots {
  const { bed, potGrid: grid, rowAngle, potPlaces, plantSpacing } = checked;
  const widest = widestRadius(pot);
  const spacing = checked.spacing === undefined ? usualSpacing(widest) : to("length")(checked.spacing);
  const edgeDistance =
    checked.edgeDistance === undefined ? usualEdgeDistance(spacing, widest) : to("length")(checked.edgeDistance);
  const placeOf = ({ x, y }: Place): Place => ({ x: to("distance")(x), y: to("distance")(y) });
  return {
    bed: {
      outline: bed === undefined ? usualOutline(edgeDistance) : toOutline(bed, to("distance"), placeOf),
      spacing,
      grid,
      rowAngle,
      edgeDistance,
      potPlaces: potPlaces?.map(placeOf) ?? null,
      plantSpacing: to("length")(plantSpacing),
    },
    areaPerPot: groundPerPot(grid, spacing),
  };
}

/** Of pots so wide, cm. */
export const usualSpacing = (widestRadius: number): number => Math.max(SPACING, ROOMY * widestRadius);

/** Far enough that no pot stands out of the bed. */
export const usualEdgeDistance = (spacing: number, widestRadius: number): number =>
  Math.max(EDGE_SHARE * spacing, widestRadius);

/** Long and wide enough to reach into from both sides (common practice, no source), and for one row of pots. */
export const usualOutline = (edgeDistance: number): BedOutline => ({
  shape: "rectangle",
  length: Math.max(BED.length, 2 * edgeDistance),
  width: Math.max(BED.width, 2 * edgeDistance),
});

function toOutline(
  bed: NonNullable<CheckedPlan["bed"]>,
  cm: (distance: number) => number,
  placeOf: (place: Place) => Place,
): BedOutline {
  switch (bed.shape) {
    case "rectangle":
      return { shape: "rectangle", length: cm(bed.length), width: cm(bed.width) };
    case "circle":
      return { shape: "circle", diameter: cm(bed.diameter) };
    case "polygon":
      return { shape: "polygon", points: bed.points.map(placeOf) };
  }
}

/** The same plan with its pots so far apart, cm, and so with other ground to each; the bed's edge and its pots stay. */
export function atSpacing<P extends PlacedPots>(plan: P, spacing: number): P {
  return { ...plan, bed: { ...plan.bed, spacing }, areaPerPot: groundPerPot(plan.bed.grid, spacing) };
}

/** Greatest outer radius of a pot at any depth, cm. */
export const widestRadius = (pot: PotShape): number => max(outlineOf(pot), ({ r }) => r)!;
