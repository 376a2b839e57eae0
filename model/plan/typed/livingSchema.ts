/** The parts of the plan that tell of a living bed: its mix, its weather, its plants, and the water it gets by hand. */
import { z } from "zod";
import { textureClasses } from "../../../reference-data/load.ts";
import { MONTHS, type Month } from "../../calendar/months.ts";
import { numberField, quantityField } from "../../input/fields.ts";
import { NAMED_STAGES } from "../../plants/growthStages.ts";
import { UNIT_SYSTEMS, type UnitSystem } from "../../units/units.ts";
import { days, percent, soilParameters, withDefault } from "./planFields.ts";

/** cm, L, L/min; common practice, no source. */
const DEFAULTS = { plantsFromWall: 15, can: 10, hose: 12 };

/** All of it may be left out. */
export function livingFields(units: UnitSystem) {
  return {
    bedMix: bedMixSchema(units),
    weather: weatherSchema(units),
    month: z.enum(MONTHS).meta({ title: "month" }).default("july"),
    plantsFromWall: withDefault(
      "distance of the plants from the pot's wall",
      "length",
      units,
      { min: 0, max: 200 },
      DEFAULTS.plantsFromWall,
    ),
    plantStage: z.enum(NAMED_STAGES).meta({ title: "stage of the plants" }).default("full grown"),
    mulch: mulchSchema(),
    lid: z.boolean().meta({ title: "lid", description: "true or false" }).default(true),
    handWatering: handWateringSchema(units),
    carrying: carryingSchema(units),
  };
}

/** A layer of another soil on top of the bed's own. */
function bedMixSchema(units: UnitSystem) {
  const depth = quantityField("depth of the bed mix", "length", units, { min: 5, max: 100 });
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({
        kind: z.literal("class"),
        name: z.enum(textureClasses().rows.map(({ name }) => name)).meta({ title: "bed mix" }),
        depth,
      }),
      z.strictObject({ kind: z.literal("own"), ...soilParameters(" of the bed mix"), depth }),
    ])
    .meta({ title: "bed mix" })
    .default({ kind: "none" });
}

/** Letters: some two hundred years of days. */
const MOST_OF_A_RECORD = 3_000_000;

/** Latitude in degrees, negative in the south. A daily record is the text of a CSV file; the months are then its means. */
function weatherSchema(units: UnitSystem) {
  const months = Object.fromEntries(MONTHS.map((month) => [month, monthSchema(month, units)]));
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("example") }),
      z.strictObject({
        kind: z.literal("own"),
        latitude: numberField("latitude", { min: -66, max: 66 }, "degrees"),
        altitude: withDefault("altitude", "distance", units, { min: -50_000, max: 500_000 }, 0),
        months: z.strictObject(months as Record<Month, ReturnType<typeof monthSchema>>).meta({ title: "months" }),
      }),
      z.strictObject({
        kind: z.literal("daily"),
        latitude: numberField("latitude", { min: -66, max: 66 }, "degrees"),
        altitude: withDefault("altitude", "distance", units, { min: -50_000, max: 500_000 }, 0),
        recordUnits: z.enum(UNIT_SYSTEMS).meta({ title: "units of the daily record" }).default(units),
        record: z.string().max(MOST_OF_A_RECORD).meta({ title: "daily record" }),
      }),
    ])
    .meta({ title: "weather" })
    .default({ kind: "example" });
}

/** Means over the days of a month; rain is the month's whole. Humidity, wind and sunshine: of all months, or of none. */
function monthSchema(month: Month, units: UnitSystem) {
  const of = monthName(month);
  const isMetric = units === "metric";
  const temperature = (title: string) => {
    const field = quantityField(`${title} of ${of}`, "temperature", units, { min: -40, max: 50 });
    const { description, ...meta } = field.meta()!;
    // Metric plans alone can tell: every °C is a possible °F.
    return field.meta({ ...meta, description: `${description}${isMetric ? " (is it in °F?)" : ""}` });
  };
  return z
    .strictObject({
      high: temperature("day's high"),
      low: temperature("night's low"),
      rain: quantityField(`rain of ${of}`, "rain", units, { min: 0, max: 1500 }),
      rainDays: days(`days with rain of ${of}`, 0, 31).optional(),
      humidity: percent(`relative humidity of ${of}`).optional(),
      wind: quantityField(`wind at 2 m of ${of}`, "wind", units, { min: 0, max: 20 }).optional(),
      sunHours: numberField(`hours of sunshine a day of ${of}`, { min: 0, max: 24 }, "hours").optional(),
    })
    .meta({ title: `weather of ${of}` });
}

/** As it stands in a sentence. */
export const monthName = (month: Month): string => month[0]!.toUpperCase() + month.slice(1);

function mulchSchema() {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({ kind: z.literal("organic"), cover: percent("share of the ground under mulch") }),
    ])
    .meta({ title: "mulch" })
    .default({ kind: "none" });
}

/** Of the ground about the pot. */
function handWateringSchema(units: UnitSystem) {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("none") }),
      z.strictObject({
        kind: z.literal("every"),
        days: days("days between waterings by hand", 0.5, 60),
        amount: quantityField("water given by hand each time", "rain", units, { min: 1, max: 100 }),
      }),
    ])
    .meta({ title: "watering by hand" })
    .default({ kind: "none" });
}

function carryingSchema(units: UnitSystem) {
  return z
    .strictObject({
      can: withDefault("watering can", "volume", units, { min: 1, max: 30 }, DEFAULTS.can),
      hose: withDefault("flow of the hose", "hose flow", units, { min: 1, max: 100 }, DEFAULTS.hose),
    })
    .meta({ title: "carrying" })
    .prefault({});
}
