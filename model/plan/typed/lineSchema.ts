/** The part of the plan that tells of the gravity line: from the tank's outlet by a main and a pipe along each row (a manifold) to a small tube at each pot. */
import { z } from "zod";
import { numberField, quantityField } from "../../input/fields.ts";
import { VALVES } from "../../line/fittings.ts";
import { fromModel, type UnitSystem } from "../../units/units.ts";
import { percent, withDefault } from "./planFields.ts";

/** cm, mm of bore, °C; our own choice. */
const DEFAULTS = { mainLength: 500, mainBore: 16, rowBore: 13, rowHeight: 5, tubeBore: 4, tubeLength: 40 };
const WATER_CELSIUS = 20;

/** All of it may be left out. */
export function lineSchema(units: UnitSystem) {
  const bore = (title: string, value: number) => withDefault(title, "bore", units, { min: 1, max: 100 }, value);
  const height = (title: string) => quantityField(title, "length", units, { min: -500, max: 2000 });
  return z
    .strictObject({
      waterTemperature: withDefault(
        "temperature of the water",
        "temperature",
        units,
        { min: 0.5, max: 45 },
        WATER_CELSIUS,
      ),
      valve: z
        .enum(Object.keys(VALVES) as (keyof typeof VALVES)[])
        .meta({ title: "valve at the tank" })
        .default("garden tap"),
      main: z
        .strictObject({
          length: withDefault("length of the main", "distance", units, { min: 10, max: 30_000 }, DEFAULTS.mainLength),
          bore: bore("bore of the main", DEFAULTS.mainBore),
          way: z
            .discriminatedUnion("kind", [
              z.strictObject({ kind: z.literal("falling") }),
              z.strictObject({
                kind: z.literal("humped"),
                highest: height("highest point of the main above the soil"),
                lowest: height("lowest point of the main above the soil"),
              }),
            ])
            .meta({ title: "way of the main" })
            .default({ kind: "falling" }),
        })
        .meta({ title: "main" })
        .prefault({}),
      rowPipe: z
        .strictObject({
          bore: bore("bore of the pipes along the rows", DEFAULTS.rowBore),
          height: height("height of the pipes along the rows above the soil").default(
            fromModel(DEFAULTS.rowHeight, "length", units),
          ),
        })
        .meta({ title: "pipes along the rows" })
        .prefault({}),
      tube: z
        .strictObject({
          bore: bore("bore of the small tubes", DEFAULTS.tubeBore),
          length: withDefault("length of the small tubes", "length", units, { min: 1, max: 1000 }, DEFAULTS.tubeLength),
          endHeight: height("height of the tubes' ends above the soil").optional(),
          end: endSchema(units),
        })
        .meta({ title: "small tubes" })
        .prefault({}),
      fullPots: z.enum(["overflow", "stop"]).meta({ title: "what a full pot does" }).default("overflow"),
      joints: jointsSchema(units),
      wantedMinutes: numberField(
        "minutes within which all pots should be full",
        { min: 1, max: 1440 },
        "minutes",
      ).default(60),
      slack: percent("length added to each tube as slack").default(10),
    })
    .meta({ title: "gravity line" })
    .prefault({});
}

function endSchema(units: UnitSystem) {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("open") }),
      z.strictObject({
        kind: z.literal("emitter"),
        flowAtOneMetre: quantityField("flow of an emitter under a metre of water", "emitter flow", units, {
          min: 0.01,
          max: 500,
        }),
        exponent: numberField("exponent of the emitter", { min: 0.1, max: 1 }).default(0.5),
      }),
    ])
    .meta({ title: "ends of the small tubes" })
    .default({ kind: "open" });
}

/** Tubes low in the walls that let the pots of a row settle to one level. */
function jointsSchema(units: UnitSystem) {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({
        kind: z.literal("rows"),
        bore: withDefault("bore of the tubes between pots", "bore", units, { min: 1, max: 100 }, 13),
        depth: withDefault("depth of the tubes between pots", "length", units, { min: 0, max: 100 }, 20),
      }),
    ])
    .meta({ title: "tubes between pots" })
    .default({ kind: "none" });
}
