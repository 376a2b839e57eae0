/** The bed of a plan seen from above, resolved: its outline, and where its pots and plants stand. */
import { layOutPots } from "../bed/layout.ts";
import type { BedOutline, Place } from "../bed/outline.ts";
import { groundPerPot, type PotGrid } from "../bed/potGrid.ts";
import type { PotShape } from "../pot/pot.ts";
import { outlineOf } from "../pot/potOutline.ts";
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

/** A usual distance from the edge follows from the spacing. */
export type EdgeOfPots = { isEdgeUsual: true } | Pick<BedPlan, "isEdgeUsual" | "edgeDistance">;

export interface PlacedPots {
  bed: BedPlan;
  /** Ground that each pot serves, cm²: what the grid gives it at the bed's spacing. */
  areaPerPot: number;
}

export function toBed(checked: CheckedPlan, pot: PotShape): PlacedPots {
  const { bed: typedOutline, potGrid: grid, rowAngle, potPlaces, plantSpacing } = checked;
  const widest = widestRadius(pot);
  const spacing = checked.spacing ?? usualSpacing(widest);
  const edgeDistance = checked.edgeDistance ?? usualEdgeDistance(spacing, widest, typedOutline);
  return {
    bed: {
      outline: typedOutline ?? usualOutline(edgeDistance),
      ...{ spacing, grid, rowAngle, edgeDistance, potPlaces, plantSpacing },
      isEdgeUsual: checked.edgeDistance === undefined,
    },
    areaPerPot: groundPerPot(grid, spacing),
  };
}

/** Of the plan's bed, were its pots so far apart: its own, or the usual one. */
export const edgeDistanceAt = (
  { bed, pot }: { bed: Pick<BedPlan, "outline"> & EdgeOfPots; pot: PotShape },
  spacing: number,
): number => (bed.isEdgeUsual ? usualEdgeDistance(spacing, widestRadius(pot), bed.outline) : bed.edgeDistance);

/** Where the pots stand, cm from corner A: where a person has put them, else by the grid. */
export const potPlacesOf = ({ bed }: { bed: BedPlan }): Place[] => bed.potPlaces ?? layOutPots(bed.outline, bed);

/** The same plan with its pots so far apart, cm, and so with other ground to each; the bed's edge and its pots stay. */
export function atSpacing<P extends { bed: Pick<BedPlan, "grid"> }>(plan: P, spacing: number) {
  return { ...plan, bed: { ...plan.bed, spacing }, areaPerPot: groundPerPot(plan.bed.grid, spacing) };
}

/** Greatest outer radius of a pot at any depth, cm. */
export const widestRadius = (pot: PotShape): number => Math.max(...outlineOf(pot).map(({ r }) => r));
