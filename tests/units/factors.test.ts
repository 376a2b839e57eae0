import { expect, it } from "vitest";
import * as factors from "../../model/units/factors.ts";
import { convert } from "../../model/units/units.ts";
import { sourcesIn } from "../house/sources.ts";

it("factors agree with the table of units", () => {
  expect(factors.CM_PER_M).toBe(convert(1, "m", "cm"));
  expect(factors.MM_PER_M).toBe(convert(1, "m", "mm"));
  expect(factors.CM2_PER_M2).toBe(convert(1, "m²", "cm²"));
  expect(factors.CM3_PER_LITRE).toBe(convert(1, "L", "cm3"));
  expect(factors.layerLitres(1, factors.CM2_PER_M2)).toBe(1);
});

/** A name that begins with a unit and goes on with another: litres per m³, ms per day. */
const FACTOR =
  /\bconst ((?:MM|CM2?3?|M2?3?|LITRES?|MG|G|MS|SECONDS?|MINUTES?|HOURS?|DAYS?)_PER_\w+|CM|MM|GRAVITY)\b\s*=/g;

it("factors are declared nowhere else; those of dates in the calendar", () => {
  const homes = ["model/units/", "model/calendar/"];
  const elsewhere = sourcesIn("model", "notebooks")
    .filter(({ file }) => !homes.some((home) => file.startsWith(home)))
    .flatMap(({ file, text }) => [...text.matchAll(FACTOR)].map((found) => `${file}: ${found[1]}`));
  expect(elsewhere).toEqual([]);
});
