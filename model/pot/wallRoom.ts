/** How thick the wall of a jar or a profile may be, which is all wall where it narrows to its end: see `roomOnAxis`. */
import { type Fault, type Reader, upperLimit } from "../input/faults.ts";
import { roomOnAxis } from "./outerSurface.ts";
import type { OutlinePoint } from "./pot.ts";

/** The check of `pot.wallThickness`, in the unit of the outline and of the depth of the soil surface or of a lower rim. */
export function wallRoomFault(
  { number, fault }: Reader,
  outline: OutlinePoint[],
  top: number,
  unit: string,
): Fault | false {
  const room = roomOnAxis(outline, top);
  const allowed = `less than ${upperLimit(room)} ${unit}, so that water stands in the pot below the soil surface`;
  return number("pot.wallThickness") >= room && fault("pot.wallThickness", allowed);
}
