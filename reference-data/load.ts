import { z } from "zod";
import { MONTHS } from "../model/calendar/months.ts";
import { TEXTURE_CLASSES } from "../model/soil/textureTriangle.ts";
import { TRANSFORMS } from "../model/soil/transformedNormal.ts";
import cropsFile from "./crops.json" with { type: "json" };
import exampleWeatherFile from "./example-weather.json" with { type: "json" };
import otherWateringFile from "./other-watering.json" with { type: "json" };
import potsFile from "./pots.json" with { type: "json" };
import saltFile from "./salt.json" with { type: "json" };
import seedsFile from "./seeds.json" with { type: "json" };
import soilDistributionsFile from "./soil-distributions.json" with { type: "json" };
import { rowNamed, rowSchema, tableSchema } from "./table.ts";
import textureClassesFile from "./texture-classes.json" with { type: "json" };
import wallsFile from "./walls.json" with { type: "json" };

export { rowNamed, type Source, sourceOf, type Table } from "./table.ts";

const positive = z.number().positive();
const span = z.strictObject({ min: z.number(), max: z.number() }).refine(({ min, max }) => min <= max);
const choice = span.safeExtend({ default: z.number() }).refine((c) => c.min <= c.default && c.default <= c.max);

const retention = { thetaR: positive, thetaS: positive, alpha: positive, n: positive, Ks: positive };

const textureClassesSchema = tableSchema(
  rowSchema.extend({
    name: z.enum(TEXTURE_CLASSES),
    mean: z.strictObject({ ...retention, n: z.number().gt(1), l: z.number() }),
    sd: z.strictObject(retention),
  }),
);

const transformedNormal = z
  .strictObject({
    form: z.enum(TRANSFORMS),
    lowest: z.number().nonnegative(),
    highest: positive,
    mean: z.number(),
    sd: positive,
  })
  .refine(({ lowest, highest }) => lowest < highest);

const soilDistributionsSchema = tableSchema(
  rowSchema
    .extend({
      name: z.enum(TEXTURE_CLASSES),
      source: z.enum(["carselParrish1988", "own"]),
      KsCmPerHour: transformedNormal,
      thetaR: transformedNormal,
      thetaS: transformedNormal,
      alpha: transformedNormal,
      n: transformedNormal,
    })
    // So that drawn one by one they still make a soil.
    .refine(({ thetaR, thetaS }) => thetaR.highest < thetaS.lowest),
);

const head = z.number().negative();
const headsByDemand = z.strictObject({ highDemand: head, lowDemand: head });

const cropsSchema = tableSchema(
  rowSchema.extend({
    easyWaterHead: headsByDemand.nullable(),
    easyWaterStage: z.literal("early").optional(),
    laterEasyWaterHead: headsByDemand.optional(),
    easyWaterLike: z.string().optional(),
    tooWetHead: head,
    wiltingHead: head,
    airlessHead: head,
    rootDepthMetres: span.nullable(),
    Kc: z.strictObject({ initial: positive, mid: positive, end: positive }).nullable(),
    KcEndRange: span.optional(),
    p: z.number().min(0).max(1).nullable(),
    stageDays: z.strictObject({ initial: positive, development: positive, mid: positive, late: positive }).nullable(),
    stagePlace: z.string().optional(),
    heightMetres: positive.nullable(),
    reasons: z.record(z.string(), z.string().min(1)).optional(),
  }),
);

const seedsSchema = tableSchema(
  rowSchema.extend({
    sproutingSuction: positive,
    emergenceDays: span,
    sowingDepth: span,
    basePotentialMPa: span.nullable(),
    baseTemperatureC: z.number().nullable(),
  }),
);

const exampleWeatherSchema = tableSchema(
  rowSchema
    .extend({
      name: z.enum(MONTHS),
      highC: z.number(),
      lowC: z.number(),
      rainMm: z.number().nonnegative(),
      rainDays: z.int().min(0).max(31),
    })
    .refine(({ lowC, highC }) => lowC <= highC),
).extend({ latitude: z.number().min(-90).max(90) });

// What a row holds goes by its source.
const saltSchema = tableSchema(
  z.discriminatedUnion("source", [
    rowSchema.extend({
      source: z.literal("ayersWestcot1985"),
      waterDSm: z.strictObject({ min: z.number().nonnegative(), max: positive.nullable() }),
    }),
    rowSchema.extend({ source: z.literal("maasHoffman1977"), thresholdDSm: positive }),
    rowSchema.extend({ source: z.literal("dissolvedSalt"), saltMgPerLitre: positive }),
    rowSchema.extend({ source: z.literal("siyal2015"), seepageLossPercent: z.number().gt(0).lt(100) }),
  ]),
);

const share = z.number().min(0).max(1);
const shares = z.strictObject({ min: share, max: share }).refine(({ min, max }) => min <= max);

const otherWateringSchema = tableSchema(
  z.union([
    rowSchema.extend({ efficiency: shares }),
    rowSchema.extend({ usualEfficiency: share }),
    rowSchema.extend({ savedShare: shares }),
  ]),
);

const wallsSchema = tableSchema(
  rowSchema.extend({
    source: z.string(),
    conductivity: positive,
    conductivityError: positive.optional(),
    thickness: positive.optional(),
    thicknessError: positive.optional(),
    porosity: positive.optional(),
  }),
).extend({ ranges: z.strictObject({ conductivity: choice, thickness: choice, conductance: choice }) });

const anyPot = rowSchema.extend({
  baseDiameter: positive,
  height: positive,
  wallThickness: positive,
  drainHoleDiameter: z.number().nonnegative(),
});

const potsSchema = tableSchema(
  z.discriminatedUnion("shape", [
    anyPot.extend({ shape: z.literal("tapered"), rimDiameter: positive }),
    anyPot.extend({
      shape: z.literal("jar"),
      neckDiameter: positive,
      bellyDiameter: positive,
      bellyBelowRim: positive,
    }),
  ]),
);

export type SoilDistributionRow = z.infer<typeof soilDistributionsSchema>["rows"][number];
export type CropRow = z.infer<typeof cropsSchema>["rows"][number];
export type PotRow = z.infer<typeof potsSchema>["rows"][number];
export type SaltRow = z.infer<typeof saltSchema>["rows"][number];

/** Means and standard deviations of the van Genuchten parameters of the twelve texture classes; cm, day. */
export const textureClasses = () => textureClassesSchema.parse(textureClassesFile);

/** How the van Genuchten parameters spread within each texture class; Ks in cm/h as printed. */
export const soilDistributions = () => soilDistributionsSchema.parse(soilDistributionsFile);

/** Suctions, roots, crop coefficients, growth stages and heights by crop; null where no value is known. */
export const crops = () => cropsSchema.parse(cropsFile);

/**
 * Pressure heads at which a crop's uptake starts to fall, cm, by demand: the crop's own, or those of the crop that stands
 * in for it (`easyWaterLike`, our own choice). RangeError where there are neither.
 */
export function easyWaterOf({ name, easyWaterHead, easyWaterLike }: CropRow): NonNullable<CropRow["easyWaterHead"]> {
  const heads = easyWaterLike === undefined ? easyWaterHead : rowNamed(crops(), easyWaterLike).easyWaterHead;
  if (heads) return heads;
  throw new RangeError(`${name} has no suction at which to water, and no crop stands in for it`);
}

/** Sprouting suction, sowing depth and days to emergence of the crops that are sown; cm, day. */
export const seeds = () => seedsSchema.parse(seedsFile);

/** Measured pot walls, and the ranges and defaults read from them; cm, day. */
export const walls = () => wallsSchema.parse(wallsFile);

/** Common nominal pots, outer dimensions, cm. */
export const pots = () => potsSchema.parse(potsFile);

/** An invented dry-summer climate, month by month, and its latitude in degrees; °C, mm. */
export const exampleWeather = () => exampleWeatherSchema.parse(exampleWeatherFile);

/** Application efficiencies of surface watering and drip, and what pots were found to save. */
export const otherWatering = () => otherWateringSchema.parse(otherWateringFile);

/** Classes of salty water, crops' thresholds, salt per conductivity, and how saline water seeps; dS/m, mg/L, %. */
export const salt = () => saltSchema.parse(saltFile);
