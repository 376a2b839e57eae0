import { z } from "zod";
import { printed, rowSchema, tableSchema } from "../../reference-data/table.ts";

const place = { latitudeDegrees: z.number(), dayOfYear: z.int() };
const highAndLow = { highC: z.number(), lowC: z.number() };
const humidity = z.strictObject({ highest: z.number(), lowest: z.number() });
/** Printed; and recomputed, where the source went on with rounded steps and differs by more than the last digit. */
const answer = printed.extend({ recomputed: printed.optional() });
const kc = z.strictObject({ initial: z.number(), mid: z.number(), end: z.number() });
const stageDays = z.strictObject({ initial: z.number(), development: z.number(), mid: z.number(), late: z.number() });
const range = z.strictObject({ min: z.number(), max: z.number() });
const heads = z.strictObject({ highDemand: z.number().negative(), lowDemand: z.number().negative() });

/** Worked examples and tables of FAO-56; what a row holds goes by its source. */
export const fao56Schema = tableSchema(
  z.discriminatedUnion("source", [
    rowSchema.extend({
      source: z.literal("sun"),
      latitudeDegrees: z.number(),
      dayOfYear: z.int(),
      dr: printed.optional(),
      declination: printed.optional(),
      sunsetHourAngle: printed.optional(),
      RaMJ: printed,
    }),
    rowSchema.extend({
      source: z.literal("hargreaves"),
      highC: z.number(),
      lowC: z.number(),
      RaMJ: z.number(),
      EToMm: printed,
    }),
    rowSchema.extend({
      source: z.literal("pressure"),
      altitudeMetres: z.number(),
      airPressure: printed,
      gamma: printed,
    }),
    rowSchema.extend({ source: z.literal("saturation"), ...highAndLow, es: printed }),
    rowSchema.extend({
      source: z.literal("humidity"),
      highC: z.number().optional(),
      lowC: z.number().optional(),
      humidity: humidity.optional(),
      wetBulb: z.strictObject({ dryC: z.number(), wetC: z.number(), airPressure: z.number() }).optional(),
      ea: printed,
    }),
    rowSchema.extend({ source: z.literal("daylight"), ...place, daylightHours: printed }),
    rowSchema.extend({
      source: z.literal("sunshine"),
      ...place,
      daylightHours: printed,
      RaMJ: printed,
      sunHours: z.number(),
      RsMJ: answer,
    }),
    rowSchema.extend({
      source: z.literal("longwave"),
      ...highAndLow,
      ea: z.number(),
      RsMJ: z.number(),
      RsoMJ: z.number(),
      RnlMJ: printed,
    }),
    rowSchema.extend({
      source: z.literal("soilHeat"),
      monthMeansC: z.strictObject({ before: z.number(), own: z.number(), after: z.number() }),
      soilHeatMJ: printed,
    }),
    rowSchema.extend({
      source: z.literal("wind"),
      wind: z.number(),
      windHeightMetres: z.number(),
      windAtTwoMetres: printed,
    }),
    rowSchema.extend({ source: z.literal("range"), ...highAndLow, RaMJ: z.number(), RsMJ: printed }),
    rowSchema.extend({
      source: z.literal("penmanMonteith"),
      ...place,
      ...highAndLow,
      altitudeMetres: z.number(),
      wind: z.number(),
      windHeightMetres: z.number(),
      ea: z.number().optional(),
      humidity: humidity.optional(),
      sunHours: z.number().optional(),
      RsMJ: z.number().optional(),
      beforeC: z.number().optional(),
      answers: z.strictObject({
        Delta: answer.optional(),
        gamma: answer.optional(),
        es: answer.optional(),
        ea: answer.optional(),
        windAtTwoMetres: answer.optional(),
        RsMJ: answer.optional(),
        RsoMJ: answer.optional(),
        RnMJ: answer.optional(),
        EToMm: answer,
      }),
    }),
    rowSchema.extend({
      source: z.literal("kc"),
      Kc: kc,
      stageDays,
      byAge: z.array(z.strictObject({ age: z.number(), Kc: printed })),
    }),
    rowSchema.extend({ source: z.literal("basal"), Kc: kc, KcbMid: z.number(), KcbEnd: z.number() }),
    rowSchema.extend({ source: z.literal("p"), pTable: z.number(), ETcMm: z.number(), p: printed }),
    rowSchema.extend({
      source: z.literal("zone"),
      fieldCapacity: z.number(),
      wiltingPoint: z.number(),
      rootDepthMetres: z.number(),
      p: z.number(),
      TAWMm: printed,
      RAWMm: printed,
    }),
    rowSchema.extend({
      source: z.literal("stress"),
      TAWMm: z.number(),
      DrMm: z.number(),
      p: z.number(),
      Ks: printed,
    }),
    rowSchema.extend({
      source: z.literal("crop"),
      Kc: kc.optional(),
      KcEndRange: range.optional(),
      rootDepthMetres: range.optional(),
      p: z.number().optional(),
      easyWaterHead: heads.optional(),
      laterEasyWaterHead: heads.optional(),
    }),
  ]),
);
