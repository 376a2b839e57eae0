/** The parts of the plan that tell where its water comes from: planting day, roof, tanks, and water carried to the tank. */
import { z } from "zod";
import { MONTHS } from "../../calendar/months.ts";
import { numberField, quantityField } from "../../input/fields.ts";
import type { UnitSystem } from "../../units/units.ts";
import { percent, withDefault } from "./planFields.ts";

/** cm², mm, L, cm; our own choice, but for the first flush: handbooks let go 0.3 to 0.5 mm of a clean roof. */
const DEFAULTS = { roofArea: 50e4, firstFlush: 0.5, volume: 1000, waterHeight: 120, outletHeight: 60, transfer: 200 };

/** All of it may be left out. */
export function supplyFields(units: UnitSystem) {
  return {
    planting: z
      .strictObject({
        month: z.enum(MONTHS).meta({ title: "month of planting" }).default("april"),
        day: numberField("day of planting", { min: 1, max: 31 })
          .int()
          .meta({ title: "day of planting", description: "a whole number from 1 to 31" })
          .default(15),
      })
      .meta({ title: "planting" })
      .prefault({}),
    roof: z
      .strictObject({
        area: withDefault("roof area", "area", units, { min: 0, max: 1e8 }, DEFAULTS.roofArea),
        runoff: percent("share of the rain that runs off the roof").default(85),
        firstFlush: withDefault("first flush let go", "rain", units, { min: 0, max: 20 }, DEFAULTS.firstFlush),
      })
      .meta({ title: "roof" })
      .prefault({}),
    tank: z
      .strictObject({
        volume: withDefault("tank volume", "volume", units, { min: 20, max: 100_000 }, DEFAULTS.volume),
        waterHeight: withDefault(
          "height of the water in a full tank",
          "length",
          units,
          { min: 10, max: 500 },
          DEFAULTS.waterHeight,
        ),
        outletHeight: withDefault(
          "height of the tank's outlet above the soil",
          "length",
          units,
          { min: -500, max: 2000 },
          DEFAULTS.outletHeight,
        ),
        lid: z.boolean().meta({ title: "lid of the tank", description: "true or false" }).default(true),
      })
      .meta({ title: "tank" })
      .prefault({}),
    spareTanks: spareTanksSchema(units),
    topUp: topUpSchema(units),
  };
}

/** Tanks that catch what overflows from the one before, and give it back when that one has room. */
function spareTanksSchema(units: UnitSystem) {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({
        kind: z.literal("alike"),
        count: numberField("number of spare tanks", { min: 1, max: 10 })
          .int()
          .meta({ title: "number of spare tanks", description: "a whole number from 1 to 10" }),
        volume: quantityField("volume of a spare tank", "volume", units, { min: 20, max: 100_000 }),
        transfer: withDefault(
          "water moved on from a spare tank",
          "flow",
          units,
          { min: 0, max: 100_000 },
          DEFAULTS.transfer,
        ),
      }),
    ])
    .meta({ title: "spare tanks" })
    .default({ kind: "none" });
}

/** Water carried to the tank by hand when it is low. */
function topUpSchema(units: UnitSystem) {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({
        kind: z.literal("below"),
        share: percent("share of the tank below which it is topped up by hand"),
        amount: quantityField("water added by hand each time", "volume", units, { min: 1, max: 10_000 }),
      }),
    ])
    .meta({ title: "topping up by hand" })
    .default({ kind: "none" });
}
