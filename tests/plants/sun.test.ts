import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MONTHS } from "../../model/calendar/months.ts";
import { middleDay } from "../../model/calendar/yearDays.ts";
import { extraterrestrialRadiation, sunsetHourAngle } from "../../model/plants/sun.ts";
import { expectClose } from "../support/close.ts";

const [MARCH_EQUINOX, JUNE_SOLSTICE, DECEMBER_SOLSTICE] = [80, 172, 355];
const latitude = fc.double({ min: -90, max: 90, noNaN: true });
const dayOfYear = fc.integer({ min: 1, max: 366 });

describe("radiation without an atmosphere", () => {
  it("is 0 in the polar night of both poles", () => {
    for (const pole of [70, 80, 90]) {
      expect(extraterrestrialRadiation(pole, DECEMBER_SOLSTICE)).toBe(0);
      expect(extraterrestrialRadiation(-pole, JUNE_SOLSTICE)).toBe(0);
    }
  });

  // Over the pole the sun stands at its declination all day: Ra = 1440 · 0.0820 · dr · sin δ.
  it("is a whole day's at the pole in June", () => {
    const dr = 1 + 0.033 * Math.cos((2 * Math.PI * JUNE_SOLSTICE) / 365);
    const known = 1440 * 0.082 * dr * Math.sin(0.409);
    expectClose(extraterrestrialRadiation(90, JUNE_SOLSTICE), known, {
      tolerance: 1e-4,
      relative: true,
      unit: "MJ/m2/day",
      what: "Ra at the pole",
    });
  });

  it("is finite, never negative, and never above half a day of overhead sun", () => {
    fc.assert(
      fc.property(latitude, dayOfYear, (degrees, day) => {
        const Ra = extraterrestrialRadiation(degrees, day);
        expect(Ra).toBeGreaterThanOrEqual(0);
        // Half a day of overhead sun, 720 min · 0.0820 · 1.033; the poles' whole day is of a sun below 24°.
        expect(Ra).toBeLessThan(61);
      }),
    );
  });

  it("falls from the equator to the pole about the equinox", () => {
    const fall = [0, 20, 40, 60, 80].map((degrees) => extraterrestrialRadiation(degrees, MARCH_EQUINOX));
    expect(fall).toEqual([...fall].sort((a, b) => b - a));
  });

  it("lets the sun set after a quarter turn on the equator, never in polar day, at once in polar night", () => {
    expect(sunsetHourAngle(0, 0.3)).toBe(Math.PI / 2);
    expect(sunsetHourAngle(1.4, 0.4)).toBe(Math.PI);
    expect(sunsetHourAngle(-1.4, 0.4)).toBe(0);
  });
});

it("the fifteenth of each month, counted on a calendar", () => {
  expect(MONTHS.map(middleDay)).toEqual([15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349]);
});
