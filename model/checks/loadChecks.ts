import { z } from "zod";
import buriedCylinderFile from "../../reference-data/checks/buried-cylinder.json" with { type: "json" };
import classValuesFile from "../../reference-data/checks/class-values.json" with { type: "json" };
import fao56File from "../../reference-data/checks/fao56.json" with { type: "json" };
import haverkampFile from "../../reference-data/checks/haverkamp.json" with { type: "json" };
import saxtonRawlsFile from "../../reference-data/checks/saxton-rawls.json" with { type: "json" };
import soilDistributionsFile from "../../reference-data/checks/soil-distributions.json" with { type: "json" };
import swissRegressionFile from "../../reference-data/checks/swiss-regression.json" with { type: "json" };
import textureTriangleFile from "../../reference-data/checks/texture-triangle.json" with { type: "json" };
import weynantsFile from "../../reference-data/checks/weynants.json" with { type: "json" };
import { printed, rowSchema, tableSchema } from "../../reference-data/table.ts";
import { TEXTURE_CLASSES } from "../soil/textureTriangle.ts";
import { fao56Schema } from "./fao56Schema.ts";

const atHead = printed.extend({ h: z.number().negative() });

const classValuesSchema = tableSchema(
  rowSchema.extend({
    name: z.enum(TEXTURE_CLASSES),
    theta: z.array(atHead),
    K: z.array(atHead),
    phi0: printed,
    capillaryLength: printed,
  }),
);

const percent = z.number().min(0).max(100);

const textureTriangleSchema = tableSchema(
  rowSchema.extend({
    name: z.enum(TEXTURE_CLASSES),
    sharePercent: percent,
    edges: z.array(z.strictObject({ sand: percent, silt: percent, clay: percent })),
  }),
);

const saxtonRawlsSchema = tableSchema(
  rowSchema.extend({
    sand: percent,
    clay: percent,
    computed: z.strictObject({
      wiltingPointPercent: printed,
      fieldCapacityPercent: printed,
      saturationPercent: printed,
      availablePercent: printed,
      KsMmPerHour: printed,
    }),
    printed: z.strictObject({
      wiltingPointPercent: percent,
      fieldCapacityPercent: percent,
      saturationPercent: percent,
      KsMmPerHour: z.number().positive(),
    }),
  }),
);

const weynantsSchema = tableSchema(
  rowSchema.extend({
    sand: percent,
    clay: percent,
    organicCarbon: percent,
    bulkDensity: z.number().positive(),
    computed: z.strictObject({ thetaS: printed, alpha: printed, n: printed, Ks: printed, l: printed }),
  }),
);

const haverkampSchema = tableSchema(
  rowSchema.extend({
    parameters: z.strictObject({
      thetaR: z.number(),
      thetaS: z.number(),
      retention: z.strictObject({ form: z.enum(["power", "logarithm"]), a: z.number(), b: z.number() }),
      KsCmPerHour: z.number(),
      A: z.number(),
      B: z.number(),
    }),
    theta: z.array(atHead),
    K: z.array(atHead),
  }),
);

const moments = z.strictObject({ mean: printed, sd: printed });

const soilDistributionsSchema = tableSchema(
  rowSchema.extend({
    name: z.enum(TEXTURE_CLASSES),
    KsCmPerHour: moments,
    thetaR: moments,
    alpha: moments,
    n: moments,
  }),
);

const fiveTimes = z.array(z.number().positive()).length(5);

const buriedCylinderSchema = tableSchema(
  rowSchema.extend({
    soil: z.enum(TEXTURE_CLASSES),
    filling: z.enum(["held", "refilled"]),
    seepageLitres: fiveTimes,
    wettedRadius: fiveTimes,
    wettedDepth: fiveTimes,
    drainageLitres: z.number().positive(),
    firstEmptyDay: z.number().positive().optional(),
    levelDepth: z.array(z.strictObject({ day: z.number(), dw: z.number() })).optional(),
  }),
);

const byPredictor = z.strictObject({
  agriculture: printed,
  examination: printed,
  education: printed,
  catholic: printed,
  infantMortality: printed,
});

const swissRegressionSchema = tableSchema(
  rowSchema.extend({
    fertility: percent,
    agriculture: percent,
    examination: percent,
    education: percent,
    catholic: percent,
    infantMortality: percent,
  }),
).extend({
  regression: z.strictObject({
    intercept: printed,
    coefficients: byPredictor,
    explained: printed,
    shares: byPredictor,
  }),
});

/** Four runs of the test problem 'buried cylinder' by an independent program. */
export const buriedCylinder = () => buriedCylinderSchema.parse(buriedCylinderFile);

/** θ(h), K(h) and φ(0) of the twelve class means. */
export const classValues = () => classValuesSchema.parse(classValuesFile);

/** Class shares of the quarter-percent grid and points on the triangle's lines. */
export const textureTriangleChecks = () => textureTriangleSchema.parse(textureTriangleFile);

/** Moments of the published distributions within their limits, by 400 000 draws. */
export const soilDistributionMoments = () => soilDistributionsSchema.parse(soilDistributionsFile);

/** Class examples at 2.5 % organic matter. */
export const saxtonRawlsExamples = () => saxtonRawlsSchema.parse(saxtonRawlsFile);

/** Three soils by the regressions of Weynants et al. (2009). */
export const weynantsExamples = () => weynantsSchema.parse(weynantsFile);

/** The sand and the Yolo light clay of Haverkamp et al. (1977), in cm and hours as printed. */
export const haverkampSoils = () => haverkampSchema.parse(haverkampFile);

/** Worked examples of FAO-56, and crops' values from its tables, and their suctions, typed apart from crops.json. */
export const fao56 = () => fao56Schema.parse(fao56File);

/** The data set of Grömping (2006), its regression, and the parts of R² that go with each column. */
export const swissRegression = () => swissRegressionSchema.parse(swissRegressionFile);
