import { z } from "zod";
import { textureClasses, walls } from "../../../reference-data/load.ts";
import { numberField, quantityField, type Range } from "../../input/fields.ts";
import { suctionKPa, type UnitSystem, unitOf } from "../../units/units.ts";
import { bedFields } from "./bedSchema.ts";
import { CROP_DEFAULTS, knownCrops } from "./cropDefaults.ts";
import { lineSchema } from "./lineSchema.ts";
import { livingFields } from "./livingSchema.ts";
import { days, percent, soilParameters, suction, text, withDefault } from "./planFields.ts";
import { START_MOISTURE, type StartMoisture } from "./startMoisture.ts";
import { supplyFields } from "./supplySchema.ts";

/**
 * The saved plan as a person types it. Lengths are in cm or inches, volumes in L or US gal, wall
 * conductivity in cm/day or in/day, temperatures in °C or °F, rain in mm or inches, after `units`; suctions are positive
 * kPa, times days, and a soil's own parameters cm and day in both. A soil, a pot and a crop must be named; all else has a
 * default.
 */
function planIn(units: UnitSystem) {
  return z
    .strictObject({
      version: z.literal(1).meta({ title: "plan version" }),
      units: z.literal(units).meta({ title: "unit system", description: '"metric" or "us"' }),
      name: text("name of the plan"),
      notes: text("notes"),
      soil: soilSchema(units),
      pot: potSchema(units),
      filling: fillingSchema(),
      startMoisture: z
        .enum(Object.keys(START_MOISTURE) as StartMoisture[])
        .meta({ title: "moisture at the start" })
        .optional(),
      startSuctionKPa: suction("suction at the start", 1, 10_000).optional(),
      days: days("days to look ahead", 0.01, 120).default(14),
      crop: cropSchema(units),
      rootDepth: withDefault("depth of most roots", "length", units, { min: 1, max: 100 }, DEFAULTS.rootDepth),
      sowing: sowingSchema(units),
      sowingDay: days("sowing day", 0, 120).nullable().default(null),
      ...livingFields(units),
      ...bedFields(units),
      ...supplyFields(units),
      line: lineSchema(units),
    })
    .meta({ title: "plan" });
}

/** cm, cm/day; the rim's and the roots' are our own choice. */
const DEFAULTS = {
  wallThickness: walls().ranges.thickness.default,
  wallConductivity: walls().ranges.conductivity.default,
  rimAboveSoil: 2,
  rootDepth: 20,
};

/**
 * Standard deviation of sand and of clay, percentage points: what a jar test or a feel of the soil may be off by (our own
 * choice).
 */
export const TEXTURE_SD = 5;

const uncertainty = () =>
  numberField("uncertainty of sand and clay", { min: 0, max: 20 }, "percentage points").default(TEXTURE_SD);

function soilSchema(units: UnitSystem) {
  const layer = (title: string) => quantityField(title, "length", units, { min: 0, max: 100 });
  return z
    .discriminatedUnion("kind", [
      z.strictObject({
        kind: z.literal("class"),
        name: z.enum(textureClasses().rows.map(({ name }) => name)).meta({ title: "soil" }),
      }),
      z
        .strictObject({
          kind: z.literal("texture"),
          sand: percent("sand"),
          silt: percent("silt"),
          clay: percent("clay"),
          uncertainty: uncertainty(),
        })
        .meta({ title: "sum of sand, silt and clay", unit: "%" }),
      z
        .strictObject({
          kind: z.literal("jar"),
          sandHeight: layer("sand layer in the jar"),
          siltHeight: layer("silt layer in the jar"),
          clayHeight: layer("clay layer in the jar"),
          uncertainty: uncertainty(),
        })
        .meta({ title: "height of soil in the jar", unit: unitOf("length", units) }),
      z.strictObject({
        kind: z.literal("own"),
        ...soilParameters(),
      }),
    ])
    .meta({ title: "soil" });
}

function potSchema(units: UnitSystem) {
  const diameter = (title: string) => quantityField(title, "length", units, { min: 2, max: 200 });
  const height = quantityField("pot height", "length", units, { min: 2, max: 150 });
  const baseDiameter = diameter("base diameter");
  const length = (title: string, range: Range, value: number) => withDefault(title, "length", units, range, value);
  const common = {
    wallThickness: length("pot wall", { min: 0.2, max: 20 }, DEFAULTS.wallThickness),
    wallConductivity: withDefault(
      "wall conductivity",
      "conductivity",
      units,
      { min: 1e-4, max: 10 },
      DEFAULTS.wallConductivity,
    ),
    rimAboveSoil: length("height of the rim above the soil", { min: -100, max: 100 }, DEFAULTS.rimAboveSoil),
    drainHoleDiameter: length("drain hole diameter", { min: 0, max: 20 }, 0),
    plugLeak: withDefault("plug leak", "flow", units, { min: 0, max: 100 }, 0),
  };
  return z
    .discriminatedUnion("shape", [
      z.strictObject({ shape: z.literal("cylinder"), diameter: diameter("pot diameter"), height, ...common }),
      z.strictObject({
        shape: z.literal("tapered"),
        rimDiameter: diameter("rim diameter"),
        baseDiameter,
        height,
        ...common,
      }),
      z.strictObject({
        shape: z.literal("jar"),
        neckDiameter: diameter("neck diameter"),
        bellyDiameter: diameter("belly diameter"),
        bellyBelowRim: quantityField("depth of the belly below the rim", "length", units, { min: 0.5, max: 150 }),
        baseDiameter,
        height,
        ...common,
      }),
      z.strictObject({
        shape: z.literal("profile"),
        points: z
          .array(
            z.strictObject({
              diameter: quantityField("diameter of a profile point", "length", units, { min: 0, max: 200 }),
              belowRim: quantityField("depth of a profile point below the rim", "length", units, { min: 0, max: 150 }),
            }),
          )
          .min(2)
          .max(100)
          .meta({ title: "profile", description: "a list of 2 to 100 points, from the rim down" }),
        ...common,
      }),
    ])
    .meta({ title: "pot" });
}

function fillingSchema() {
  return z
    .discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("float") }),
      z.strictObject({ kind: z.literal("every"), days: days("days between refills", 0.25, 60) }),
      z.strictObject({ kind: z.literal("once") }),
    ])
    .meta({ title: "filling" })
    .default({ kind: "every", days: 3 });
}

function cropSchema(units: UnitSystem) {
  const coefficient = (stage: string, value: number) =>
    numberField(`crop coefficient ${stage}`, { min: 0.1, max: 1.5 }).default(value);
  const { Kc } = CROP_DEFAULTS;
  return z
    .discriminatedUnion("kind", [
      z.strictObject({
        kind: z.literal("listed"),
        name: z.enum(knownCrops().map(({ name }) => name)).meta({ title: "crop" }),
      }),
      z.strictObject({
        kind: z.literal("own"),
        name: text("name of the crop"),
        easyWaterSuctionKPa: suction("suction at which the crop starts to suffer", 1, 1500),
        tooWetSuctionKPa: suction("suction below which the crop's roots lack air", 0.1, 50).default(
          suctionKPa(CROP_DEFAULTS.tooWetHead),
        ),
        deepestRoots: withDefault(
          "depth of the crop's deepest roots",
          "length",
          units,
          { min: 5, max: 300 },
          CROP_DEFAULTS.deepestRoots,
        ),
        wiltingSuctionKPa: suction("suction at which the crop wilts", 100, 3000).optional(),
        cropCoefficientInitial: coefficient("of young plants", Kc.initial),
        cropCoefficientMid: coefficient("of full-grown plants", Kc.mid),
        cropCoefficientEnd: coefficient("at the end", Kc.end),
        depletionShare: numberField("share of the available water used before stress", { min: 0.1, max: 0.8 }).default(
          CROP_DEFAULTS.p,
        ),
        daysToFullSize: days("days to full size", 10, 200).default(CROP_DEFAULTS.daysToFullSize),
        height: withDefault("height of the crop", "length", units, { min: 5, max: 400 }, CROP_DEFAULTS.height),
      }),
    ])
    .meta({ title: "crop" });
}

/** Left out, a seed's depth, days and suction are those of its crop. */
function sowingSchema(units: UnitSystem) {
  const length = (title: string, min: number, max: number) => quantityField(title, "length", units, { min, max });
  return z
    .discriminatedUnion("kind", [
      z.strictObject({
        kind: z.literal("seed"),
        sowingDepth: length("sowing depth", 0.1, 15).optional(),
        emergenceDays: days("days from sowing to emergence", 0.5, 60).optional(),
        sproutingSuctionKPa: suction("suction up to which the seed sprouts", 5, 2000).optional(),
      }),
      z.strictObject({
        kind: z.literal("starter"),
        rootBallDepth: length("depth of the root ball", 0.5, 50),
        rootBallRadius: length("radius of the root ball", 0.5, 30),
        handWateringDays: days("days of watering by hand", 0, 60).default(7),
      }),
    ])
    .meta({ title: "sowing" })
    .default({ kind: "seed" });
}

/** By unit system. */
export const PLAN_SCHEMAS = { metric: planIn("metric"), us: planIn("us") };

/** Both unit systems in one, for export. */
export const planSchema = z
  .discriminatedUnion("units", [PLAN_SCHEMAS.metric, PLAN_SCHEMAS.us])
  .meta({ title: "plan", description: "One bed with one kind of pot, as a person typed it" });

export type PlanInput = z.input<typeof planSchema>;
export type CheckedPlan = z.output<typeof planSchema>;
