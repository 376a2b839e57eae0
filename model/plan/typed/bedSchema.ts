/** The parts of the plan that tell of a bed seen from above: its outline, and where its pots and plants stand. */
import { z } from "zod";
import { POT_GRIDS } from "../../bed/potGrid.ts";
import { numberField, quantityField } from "../../input/fields.ts";
import type { UnitSystem } from "../../units/units.ts";
import { withDefault } from "./planFields.ts";

/** cm; our own choice. */
const PLANT_SPACING = 30;

/** Of a bed, cm. */
export const BED_SIZE = { min: 20, max: 5000 };

/** Pots of a plan at most: more are a field, and more than a page can show (our own choice). */
export const MOST_POTS = 3000;

/** All of it may be left out. */
export function bedFields(units: UnitSystem) {
  return {
    bed: outlineSchema(units),
    spacing: quantityField("pot spacing", "length", units, { min: 20, max: 400 }).optional(),
    potGrid: z.enum(POT_GRIDS).meta({ title: "pot grid" }).default("square"),
    rowAngle: numberField("angle of the pot rows", { min: -90, max: 90 }, "degrees").default(0),
    edgeDistance: quantityField("distance of the pots from the bed's edge", "length", units, {
      min: 1,
      max: 300,
    }).optional(),
    potPlaces: z
      .array(placeSchema("of a pot", units))
      .min(1)
      .max(MOST_POTS)
      .meta({ title: "places of the pots", description: `a list of 1 to ${MOST_POTS} places, or null` })
      .nullable()
      .default(null),
    plantSpacing: withDefault("plant spacing", "length", units, { min: 2, max: 200 }, PLANT_SPACING),
  };
}

/** x along the bed from its corner A, y across. */
function outlineSchema(units: UnitSystem) {
  const size = (title: string) => quantityField(title, "distance", units, BED_SIZE);
  return z
    .discriminatedUnion("shape", [
      z.strictObject({ shape: z.literal("rectangle"), length: size("bed length"), width: size("bed width") }),
      z.strictObject({ shape: z.literal("circle"), diameter: size("bed diameter") }),
      z.strictObject({
        shape: z.literal("polygon"),
        points: z
          .array(placeSchema("of a corner of the bed", units))
          .min(3)
          .max(100)
          .meta({ title: "outline of the bed", description: "a list of 3 to 100 corners" }),
      }),
    ])
    .meta({ title: "bed" })
    .optional();
}

function placeSchema(of: string, units: UnitSystem) {
  const field = (name: string) =>
    quantityField(`${name} ${of}`, "distance", units, { min: -BED_SIZE.max, max: BED_SIZE.max });
  return z.strictObject({ x: field("x"), y: field("y") }).meta({ title: `place ${of}` });
}
