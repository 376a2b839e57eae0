/** What a bed is like where a plan leaves it open. */
import { type BedOutline, bedBounds } from "../../bed/outline.ts";

/** cm; its length is our own choice. */
const BED = { length: 480, width: 120 };
/** cm; our own choice. */
const SPACING = 70;
/** Spacing of a wide pot over its widest radius: our own choice. */
const ROOMY = 3.5;
/** A pot's distance from the bed's edge over the spacing: our own choice. */
const EDGE_SHARE = 1 / 3;

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

/** Long and wide enough to reach into from both sides (common practice, no source), and for one row of pots. */
export const usualOutline = (edgeDistance: number): BedOutline => ({
  shape: "rectangle",
  length: Math.max(BED.length, 2 * edgeDistance),
  width: Math.max(BED.width, 2 * edgeDistance),
});
