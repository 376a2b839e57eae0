/** The bed of a plan seen from above, resolved: its outline, and where its pots and plants stand. */
import { max } from "d3-array";
import { layOutPots } from "../bed/layout.ts";
import { type BedOutline, bedBounds, type Place } from "../bed/outline.ts";
import { groundPerPot, type PotGrid } from "../bed/potGrid.ts";
import { outlineOf } from "../pot/outline.ts";
import type { PotShape } from "../pot/pot.ts";
import type { Quantity } from "../units/units.ts";
import type { CheckedPlan } from "./typed/planSchema.ts";

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
  /** It follows from the spacing: none was given. */
  isEdgeUsual: boolean;
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
  const typedEdge = checked.edgeDistance;
  const placeOf = ({ x, y }: Place): Place => ({ x: to("distance")(x), y: to("distance")(y) });
  const typedOutline = bed && toOutline(bed, to("distance"), placeOf);
  const edgeDistance =
    typedEdge === undefined ? usualEdgeDistance(spacing, widest, typedOutline) : to("length")(typedEdge);
  return {
    bed: {
      outline: typedOutline ?? usualOutline(edgeDistance),
      spacing,
      grid,
      rowAngle,
      edgeDistance,
      isEdgeUsual: typedEdge === undefined,
      potPlaces: potPlaces?.map(placeOf) ?? null,
      plantSpacing: to("length")(plantSpacing),
    },
    areaPerPot: groundPerPot(grid, spacing),
  };
}

/** Of pots so wide, cm. */
export const usualSpacing = (widestRadius: number): number => Math.max(SPACING, ROOMY * widestRadius);

/** Far enough that no pot stands out of the bed; in a narrow bed no farther than leaves one row. */
export function usualEdgeDistance(spacing: number, widestRadius: number, outline?: BedOutline): number {
  const most = outline ? halfWidth(outline) : Number.POSITIVE_INFINITY;
  return Math.max(Math.min(EDGE_SHARE * spacing, most), widestRadius);
}

/** A hair less than half the narrower side of the box about it, so that rounding leaves room for one row. */
function halfWidth(outline: BedOutline): number {
  const { x0, x1, y0, y1 } = bedBounds(outline);
  return (Math.min(x1 - x0, y1 - y0) / 2) * (1 - 1e-9);
}

/** Of the plan's bed, were its pots so far apart: its own, or the usual one. */
export const edgeDistanceAt = ({ bed, pot }: { bed: BedPlan; pot: PotShape }, spacing: number): number =>
  bed.isEdgeUsual ? usualEdgeDistance(spacing, widestRadius(pot), bed.outline) : bed.edgeDistance;

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

/** Where the pots stand: where a person has put them, else by the grid. */
export const potPlacesOf = ({ bed }: { bed: BedPlan }): Place[] => bed.potPlaces ?? layOutPots(bed.outline, bed);

/** The same plan with its pots so far apart, cm, and so with other ground to each; the bed's edge and its pots stay. */
export function atSpacing<P extends PlacedPots>(plan: P, spacing: number): P {
  return { ...plan, bed: { ...plan.bed, spacing }, areaPerPot: groundPerPot(plan.bed.grid, spacing) };
}

/** Greatest outer radius of a pot at any depth, cm. */
export const widestRadius = (pot: PotShape): number => max(outlineOf(pot), ({ r }) => r)!;
