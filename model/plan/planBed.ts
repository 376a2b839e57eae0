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

/** cm; our own choice. */
const SPACING = 70;
/** Spacing of a wide pot over its widest radius: our own choice. */
const ROOMY = 3.5;
/** A pot's distance from the bed's edge over the spacing: our own choice. */
const EDGE_SHARE = 1 / 3;

type Convert = (quantity: Quantity) => (value: number) => number;

export function toBed(checked: CheckedPlan, pot: PotShape, to: Convert): PlacedPots {
  const widest = widestRadius(pot);
  const spacing = checked.spacing === undefined ? Math.max(SPACING, ROOMY * widest) : to("length")(checked.spacing);
  return {
    bed: {
      outline: { shape: "rectangle", length: 480, width: 120 },
      spacing,
      grid: checked.potGrid,
      rowAngle: 0,
      edgeDistance: Math.max(EDGE_SHARE * spacing, widest),
      potPlaces: null,
      plantSpacing: 30,
    },
    areaPerPot: groundPerPot(checked.potGrid, spacing),
  };
}

/** The same plan with its pots so far apart, cm, and so with other ground to each; the bed's edge and its pots stay. */
export function atSpacing<P extends PlacedPots>(plan: P, spacing: number): P {
  return { ...plan, bed: { ...plan.bed, spacing }, areaPerPot: groundPerPot(plan.bed.grid, spacing) };
}

/** Greatest outer radius of a pot at any depth, cm. */
export const widestRadius = (pot: PotShape): number => max(outlineOf(pot), ({ r }) => r)!;
