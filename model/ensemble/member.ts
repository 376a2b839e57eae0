import type { TextureClass } from "../soil/textureTriangle.ts";
import type { VanGenuchtenParameters } from "../soil/vanGenuchten.ts";

/** One of the many beds that a plan may stand for: what is not known for sure, drawn at random. */
export interface Member {
  /** Place in the ensemble, from 0. The same seed gives the same member at the same place, however many follow it. */
  index: number;
  soil: VanGenuchtenParameters;
  /** The class that the soil was drawn from; null where the soil is the plan's own. */
  className: TextureClass | null;
  /** Times the plan's wall conductivity; 1 where the wall is not varied. */
  wallFactor: number;
  /** Pressure head everywhere at the start, cm. */
  startHead: number;
  /** Times every length of the plan's pot but the wall's thickness; 1 where the pot is not varied. */
  potScale: number;
}
