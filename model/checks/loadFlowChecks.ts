import { z } from "zod";
import cavityFile from "../../reference-data/checks/flow-cavity.json" with { type: "json" };
import celiaFile from "../../reference-data/checks/flow-celia.json" with { type: "json" };
import cylinderAbsorptionFile from "../../reference-data/checks/flow-cylinder-constant-diffusivity.json" with {
  type: "json",
};
import haverkampFile from "../../reference-data/checks/flow-haverkamp.json" with { type: "json" };
import pointSourceFile from "../../reference-data/checks/flow-point-source.json" with { type: "json" };
import radialAbsorptionFile from "../../reference-data/checks/flow-radial-absorption.json" with { type: "json" };
import sorptivityFile from "../../reference-data/checks/flow-sorptivity.json" with { type: "json" };
import srivastavaYehFile from "../../reference-data/checks/flow-srivastava-yeh.json" with { type: "json" };
import steadyRiseFile from "../../reference-data/checks/flow-steady-rise.json" with { type: "json" };
import tracyFile from "../../reference-data/checks/flow-tracy.json" with { type: "json" };
import { rowSchema, tableSchema } from "../../reference-data/table.ts";
import { TEXTURE_CLASSES } from "../soil/textureTriangle.ts";

const positive = z.number().positive();
const pointsOf = <Shape extends z.ZodRawShape>(shape: Shape) => z.array(z.strictObject(shape)).min(1);
const soilClass = z.enum(TEXTURE_CLASSES);

const celiaSchema = tableSchema(
  rowSchema.extend({
    hours: positive,
    infiltrated: positive,
    fronts: pointsOf({ h: z.number(), depth: positive }),
    heads: pointsOf({ depth: positive, h: z.number() }),
  }),
);

const haverkampSchema = tableSchema(
  rowSchema.extend({
    startHead: z.number(),
    edge: z.union([z.strictObject({ head: z.number() }), z.strictObject({ fluxCmPerHour: positive })]),
    frontTheta: positive,
    hours: z.array(positive),
    frontDepth: z.array(positive),
    infiltrated: z.array(positive).optional(),
    surfaceTheta: z.array(positive).optional(),
    horizontalPerRootHour: positive.optional(),
  }),
);

const cavitySchema = tableSchema(rowSchema.extend({ points: pointsOf({ s: positive, value: positive }) }));

const pointSourceSchema = tableSchema(
  rowSchema.extend({
    T: positive.nullable(),
    depth: z.number().nonnegative().nullable(),
    points: pointsOf({ R: positive, Z: z.number(), Phi: positive }),
  }),
);

const sorptivitySchema = tableSchema(
  rowSchema.extend({ name: soilClass, sorptivities: pointsOf({ startHead: z.number(), value: positive }) }),
);

const radialAbsorptionSchema = tableSchema(
  rowSchema.extend({
    soilClass,
    shape: z.enum(["cylinder", "sphere"]),
    held: pointsOf({ day: positive, absorbed: positive, radius: positive }),
    throughWall: pointsOf({ day: positive, absorbed: positive }),
  }),
);

const cylinderAbsorptionSchema = tableSchema(rowSchema.extend({ tau: positive, G: positive }));

const srivastavaYehSchema = tableSchema(
  rowSchema.extend({
    hours: z.number().nonnegative().nullable(),
    points: pointsOf({ z: positive, h: z.number(), theta: positive }),
  }),
);

const tracySchema = tableSchema(
  rowSchema.extend({ hours: positive.nullable(), points: pointsOf({ x: positive, z: positive, h: z.number() }) }),
);

const steadyRiseSchema = tableSchema(rowSchema.extend({ n: positive, printed: positive, A: positive }));

/** Infiltration volumes, fronts and heads of Celia et al. (1990). */
export const celiaInfiltration = () => celiaSchema.parse(celiaFile);

/** Infiltration into the two soils of Haverkamp et al. (1977), cm and hours. */
export const haverkampInfiltration = () => haverkampSchema.parse(haverkampFile);

/** Steady flow from a sphere and a horizontal cylinder in Gardner soil. */
export const cavityFlows = () => cavitySchema.parse(cavityFile);

/** Point sources in Gardner soil, in time and steady. */
export const pointSources = () => pointSourceSchema.parse(pointSourceFile);

/** Sorptivities of texture class means, cm/day^½. */
export const sorptivities = () => sorptivitySchema.parse(sorptivityFile);

/** Absorption from a cylinder and a sphere, with and without a wall; cm, day. */
export const radialAbsorption = () => radialAbsorptionSchema.parse(radialAbsorptionFile);

/** The function G(tau) of absorption from a cylinder into soil of constant diffusivity. */
export const cylinderAbsorption = () => cylinderAbsorptionSchema.parse(cylinderAbsorptionFile);

/** Heads and water contents of Srivastava & Yeh (1991), cm and hours. */
export const srivastavaYehColumn = () => srivastavaYehSchema.parse(srivastavaYehFile);

/** Heads of Tracy (2006), metres and hours. */
export const tracySquare = () => tracySchema.parse(tracyFile);

/** Gardner's (1958) constants of the largest steady rise. */
export const steadyRise = () => steadyRiseSchema.parse(steadyRiseFile);
