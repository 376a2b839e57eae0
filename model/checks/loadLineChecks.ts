import { z } from "zod";
import drainingTankFile from "../../reference-data/checks/draining-tank.json" with { type: "json" };
import manyOutletsFile from "../../reference-data/checks/many-outlets.json" with { type: "json" };
import pipeFrictionFile from "../../reference-data/checks/pipe-friction.json" with { type: "json" };
import tubeFlowFile from "../../reference-data/checks/tube-flow.json" with { type: "json" };
import tubeHeadLossFile from "../../reference-data/checks/tube-head-loss.json" with { type: "json" };
import waterViscosityFile from "../../reference-data/checks/water-viscosity.json" with { type: "json" };
import { printed, rowSchema, tableSchema } from "../../reference-data/table.ts";

const positive = z.number().positive();

const viscositySchema = tableSchema(rowSchema.extend({ celsius: z.number().nonnegative(), viscosity: printed }));

const frictionSchema = tableSchema(
  rowSchema.extend({ Re: positive, relativeRoughness: z.number().nonnegative(), f: printed }),
);

const headLossSchema = tableSchema(
  rowSchema.extend({
    diameterMm: positive,
    litresPerHour: positive,
    Re: printed,
    metresPerMetre: printed,
    hazenWilliams: printed,
  }),
);

const tubeFlowSchema = tableSchema(
  rowSchema.extend({
    diameterMm: positive,
    length: positive,
    head: positive,
    minorLoss: z.number().nonnegative(),
    law: z.enum(["laminar", "Blasius"]),
    litresPerHour: printed,
  }),
);

const manyOutletsSchema = tableSchema(
  rowSchema.extend({ m: positive, outlets: z.int().positive(), F: printed, sum: printed }),
);

const drainingTankSchema = tableSchema(
  rowSchema.extend({
    tankDiameter: positive,
    depth: positive,
    holeMm: positive,
    dischargeCoefficient: positive,
    seconds: printed,
  }),
);

/** Kinematic viscosity of water, 10⁻⁶ m²/s. */
export const waterViscosity = () => viscositySchema.parse(waterViscosityFile);

/** Friction factors by Colebrook (1939). */
export const pipeFriction = () => frictionSchema.parse(pipeFrictionFile);

/** Head lost per metre of tube, by Poiseuille or Blasius and by Hazen and Williams. */
export const tubeHeadLoss = () => headLossSchema.parse(tubeHeadLossFile);

/** Flow through one tube under a given head, L/h. */
export const tubeFlow = () => tubeFlowSchema.parse(tubeFlowFile);

/** Christiansen's (1942) factor of a pipe with many outlets. */
export const manyOutlets = () => manyOutletsSchema.parse(manyOutletsFile);

/** Torricelli's time to drain a tank. */
export const drainingTank = () => drainingTankSchema.parse(drainingTankFile);
