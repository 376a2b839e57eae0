import { entry } from "../input/lists.ts";
import type { Assembly } from "./assembly.ts";
import type { Boundary } from "./boundary.ts";
import type { FlowState } from "./timeStep.ts";

/** Since the start, cm³. */
export interface WaterBalance {
  /** Given by the pot, through its wall and its plug. */
  seepage: number;
  /** Lost through the region's bottom. */
  drainage: number;
  /** Taken by roots; lost from the soil to the air; taken up from rain and watering by hand. */
  uptake: number;
  evaporation: number;
  rain: number;
}

/**
 * Share of the water in the ground. Where less than this has moved, what Newton's method leaves over (see `stepTolerance`) is
 * no longer small beside it, and says nothing: it is 6e-7 of it at most in all texture classes, from moist to bone dry.
 */
const LEAST_MOVED = 1e-6;

/** Compares the water that the cells hold, by their own θ(u), with what crossed the boundaries. */
export function waterBalance({ mesh, kernel: { cells }, boundaries }: Assembly) {
  const stored = () => mesh.V.reduce((sum, V, i) => sum + V * cells.theta[i]!, 0);
  const atStart = stored();
  return {
    /** |storage change − in + out| over the largest of the three, or over `LEAST_MOVED` where less has moved. */
    errorAt({ entered }: FlowState): number {
      const change = stored() - atStart;
      const inward = entered.reduce((sum, volume) => sum + Math.max(volume, 0), 0);
      const outward = entered.reduce((sum, volume) => sum - Math.min(volume, 0), 0);
      const largest = Math.max(Math.abs(change), inward, outward, LEAST_MOVED * atStart);
      return Math.abs(change - inward + outward) / largest;
    },
    at({ entered }: FlowState): WaterBalance {
      const sumWhere = (isMeant: (boundary: Boundary) => boolean) =>
        entered.reduce((sum, volume, k) => (isMeant(entry(boundaries, k)) ? sum + volume : sum), 0);
      const throughAll = (meant: string) => sumWhere(({ name }) => name === meant);
      return {
        seepage: sumWhere(({ isFromPot }) => isFromPot),
        drainage: -throughAll("drainage"),
        uptake: -throughAll("roots"),
        evaporation: -throughAll("evaporation"),
        rain: throughAll("rain"),
      };
    },
  };
}
