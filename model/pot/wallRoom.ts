/** How thick a pot's wall may be: a pot that narrows to its end is all wall there, see `roomOnAxis`. */
import { type Fault, type Reader, upperLimit } from "../input/faults.ts";
import { roomOnAxis } from "./outerSurface.ts";
import type { PotShape } from "./pot.ts";
import { outlineOf } from "./potOutline.ts";

/** The check of `pot.wallThickness`, in the unit of the pot's lengths. */
export function wallRoomFault({ number, fault }: Reader, pot: PotShape, unit: string): Fault | false {
  const room = roomOnAxis(outlineOf(pot), Math.max(pot.rimDepth, 0));
  const allowed = `less than ${upperLimit(room)} ${unit}, so that water stands in the pot below the soil surface`;
  return number("pot.wallThickness") >= room && fault("pot.wallThickness", allowed);
}
