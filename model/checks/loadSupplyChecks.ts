import { z } from "zod";
import rainTankFile from "../../reference-data/checks/rain-tank.json" with { type: "json" };
import { printed, rowSchema, tableSchema } from "../../reference-data/table.ts";

const positive = z.number().positive();
const share = z.number().min(0).max(1);
const byMonth = z.array(z.number().nonnegative()).length(12);

const metricRoof = { rainMm: positive, areaM2: positive, runoff: share, firstFlushMm: z.number(), litres: printed };
const usRoof = { rainInches: positive, areaFt2: positive, runoff: share, firstFlushMm: z.number(), gallons: printed };

// What a row holds goes by its source.
const rainTankSchema = tableSchema(
  z.discriminatedUnion("source", [
    rowSchema.extend({ source: z.enum(["litre", "year", "documentation"]), ...metricRoof }),
    rowSchema.extend({ source: z.enum(["inch", "dallas"]), ...usRoof }),
    rowSchema.extend({
      source: z.literal("flush"),
      areaFt2: positive,
      firstFlushGallons: positive,
      firstFlushMm: printed,
    }),
    rowSchema.extend({
      source: z.literal("balance"),
      areaM2: positive,
      runoff: share,
      firstFlushMm: z.number(),
      tankLitres: positive,
      rainByMonthMm: byMonth,
      demandByMonthLitres: byMonth,
      useComes: z.enum(["before spilling", "after spilling"]),
      step: z.enum(["month", "day"]),
      supplied: printed,
      spilled: printed.optional(),
      short: printed.optional(),
      storedAtMonthEnds: byMonth.optional(),
    }),
  ]),
);

/** What runs off roofs, and a tank's balance in months and in days. */
export const rainTank = () => rainTankSchema.parse(rainTankFile);
