import { CM3_PER_LITRE } from "../units/factors.ts";
import { innerSurface } from "./innerSurface.ts";
import { levelOf } from "./level.ts";
import type { Pot, PotShape } from "./pot.ts";
import { outlineOf } from "./potOutline.ts";

/** A pot ready for the flow model from its plain description (cm, cm/day), which is trusted. */
export function buildPot(shape: PotShape): Pot {
  const outline = outlineOf(shape);
  return {
    outline,
    wallThickness: shape.wallThickness,
    wallConductivity: shape.wallConductivity,
    plugLeak: shape.plugLeakLitres * CM3_PER_LITRE,
    ...levelOf(innerSurface(outline, shape.wallThickness)),
  };
}

/** What a pot holds to the rim, litres. */
export const potLitres = (shape: PotShape): number => buildPot(shape).capacity / CM3_PER_LITRE;
