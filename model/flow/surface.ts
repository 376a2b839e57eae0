import type { Boundary, EdgeRun, Moment } from "./boundary.ts";
import type { EdgeFaces } from "./mesh.ts";

/**
 * Pressure head of soil that has come to rest with air of about half its saturated humidity, cm: by Kelvin's equation,
 * h = (R T / M g) ln(humidity), −0.95e6 cm at 50 % and 20 °C. Soil that dry passes so little water that any head of this
 * size gives the same evaporation.
 */
const AIR_DRY_HEAD = -1e6;

/** Rain, as much of it as soil that is saturated at its surface takes up; the rest runs off. */
export function rainfall(top: EdgeFaces): Boundary {
  return limited("rain", top, 0, ({ spell }) => spell.rain);
}

/** Evaporation, as much of it as soil that is air-dry at its surface delivers from below. */
export function evaporation(top: EdgeFaces): Boundary {
  return limited("evaporation", top, AIR_DRY_HEAD, ({ spell }) => -spell.evaporation);
}

/**
 * A flux that the sky offers or asks for (cm/day, into the soil), or the flow of a surface at the limiting head, whichever
 * is less; never the other way.
 */
function limited(name: string, top: EdgeFaces, limitHead: number, fluxOf: (moment: Moment) => number): Boundary {
  const { cell, area } = top;
  return {
    name,
    isFromPot: false,
    cell,
    endHead: limitHead,
    begin(run) {
      const fill = heldFlows(run, top, limitHead);
      const areas = run.room.numbers(area).at;
      const [count, , flows] = run.places;
      return (_, moment) => {
        fill();
        run.kernel.loops.limitFlows(count, flows, areas, fluxOf(moment));
      };
    },
  };
}

/** Fills the flow from faces at given heads: half a cell's, T [φ(hb) − φ(h) + (d − db) K̄]. */
export function heldFlows(
  { kernel, room, places }: EdgeRun,
  { cell, T, drop }: Pick<EdgeFaces, "cell" | "T" | "drop">,
  head: number | Float64Array,
): () => void {
  const heads = typeof head === "number" ? new Float64Array(cell.length).fill(head) : head;
  const { at } = room.numbers([...T, ...drop, ...heads]);
  return () => kernel.loops.fillHeld(...places, at);
}
