import type { Boundary, Moment } from "./boundary.ts";
import type { Ground } from "./ground.ts";
import { halfCellFlow, soilAtCell } from "./halfCell.ts";
import type { EdgeFaces } from "./mesh.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * Pressure head of soil that has come to rest with air of about half its saturated humidity, cm: by Kelvin's equation,
 * h = (R T / M g) ln(humidity), −0.95e6 cm at 50 % and 20 °C. Soil that dry passes so little water that any head of this
 * size gives the same evaporation.
 */
const AIR_DRY_HEAD = -1e6;

/** Rain, as much of it as soil that is saturated at its surface takes up; the rest runs off. */
export function rainfall(top: EdgeFaces, ground: Pick<Ground, "tableOf">): Boundary {
  return limited("rain", top, ground, 0, ({ spell }) => spell.rain);
}

/** Evaporation, as much of it as soil that is air-dry at its surface delivers from below. */
export function evaporation(top: EdgeFaces, ground: Pick<Ground, "tableOf">): Boundary {
  return limited("evaporation", top, ground, AIR_DRY_HEAD, ({ spell }) => -spell.evaporation);
}

/**
 * A flux that the sky offers or asks for (cm/day, into the soil), or the flow of a surface at the limiting head, whichever
 * is less; never the other way.
 */
function limited(
  name: string,
  { cell, area, T, drop }: EdgeFaces,
  ground: Pick<Ground, "tableOf">,
  limitHead: number,
  fluxOf: (moment: Moment) => number,
): Boundary {
  const atLimit = Array.from(cell, (c) => ground.tableOf(c).atHead(limitHead));
  return {
    name,
    isFromPot: false,
    cell,
    evaluate(soil, _, { Q, dQdu }, moment) {
      const flux = fluxOf(moment);
      Q.fill(0);
      dQdu.fill(0);
      if (flux === 0) return;
      for (let k = 0; k < cell.length; k++) {
        const offered = flux * area[k]!;
        const { flow, du } = halfCellFlow(limitHead, atLimit[k]!, soilAtCell(soil, cell[k]!), drop[k]!);
        const most = T[k]! * flow;
        if (most * flux <= 0) continue;
        const isLimited = Math.abs(most) < Math.abs(offered);
        Q[k] = isLimited ? most : offered;
        dQdu[k] = isLimited ? T[k]! * du : 0;
      }
    },
  };
}
