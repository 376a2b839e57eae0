/** The bed of a plan seen from above, resolved: its outline, and where its pots and plants stand. */
import { max } from "d3-array";
import { layOutPots } from "../bed/layout.ts";
import type { BedOutline, Place } from "../bed/outline.ts";
import { groundPerPot, type PotGrid } from "../bed/potGrid.ts";
import { outlineOf } from "../pot/outline.ts";
import type { PotShape } from "../pot/pot.ts";
import type { Quantity } from "../units/units.ts";
import { usualEdgeDistance, usualOutline, usualSpacing } from "./typed/bedDefaults.ts";
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

/** Of the plan's bed, were its pots so far apart: its own, or the usual one. */
export const edgeDistanceAt = ({ bed, pot }: { bed: BedPlan; pot: PotShape }, spacing: number): number =>
  bed.isEdgeUsual ? usualEdgeDistance(spacing, widestRadius(pot), bed.outline) : bed.edgeDistance;

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
