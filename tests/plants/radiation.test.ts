import fc from "fast-check";
import { expect, it } from "vitest";
import { monthsSoilHeat, monthsSoilHeatSoFar, radiationOfRange } from "../../model/checks/fao56.ts";
import { clearSkyRadiation, daylightHours, netLongwave, radiationOfSunshine } from "../../model/plants/radiation.ts";
import { expectClose } from "../support/close.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

it("the day has twelve hours on the equator, and with that of the other hemisphere twenty-four", () => {
  fc.assert(
    fc.property(between(0, 66), fc.integer({ min: 1, max: 365 }), (latitude, day) => {
      expect(daylightHours(0, day)).toBeCloseTo(12, 12);
      expect(daylightHours(latitude, day) + daylightHours(-latitude, day)).toBeCloseTo(24, 9);
    }),
  );
});

it("a day of nothing but sun has the radiation of a clear sky at the sea, one without any a third of it", () => {
  const clear = clearSkyRadiation(40, 0);
  expect(radiationOfSunshine(40, 12, 12)).toBe(clear);
  expect(radiationOfSunshine(40, 14, 12)).toBe(clear);
  expectClose(radiationOfSunshine(40, 0, 12), clear / 3, { tolerance: 1e-12, unit: "MJ/m2/day", what: "Rs" });
});

it("the coast has more sun than the inland for the same range of temperatures, by 19 to 16", () => {
  const day = { highC: 30, lowC: 14 };
  // 0.16 · √16 · 25 = 16.
  expectClose(radiationOfRange(25, day, "inland"), 16, { tolerance: 1e-12, unit: "MJ/m2/day", what: "Rs inland" });
  expectClose(radiationOfRange(25, day, "coast"), 19, { tolerance: 1e-12, unit: "MJ/m2/day", what: "Rs by the sea" });
});

it("months that warm evenly take the same heat into the ground by either of the two ways", () => {
  fc.assert(
    fc.property(between(-10, 30), between(-8, 8), (before, step) => {
      const known = monthsSoilHeat(before, before + 2 * step);
      expect(monthsSoilHeatSoFar(before, before + step)).toBeCloseTo(known, 12);
    }),
  );
});

it("less heat is lost to the sky under clouds and in damp air, and some number is in the polar night", () => {
  const sky = { highC: 25, lowC: 15, ea: 1.5, RsMJ: 30, RsoMJ: 30 };
  const lost = netLongwave(sky);
  expect(netLongwave({ ...sky, RsMJ: 15 })).toBeLessThan(lost);
  expect(netLongwave({ ...sky, ea: 2 })).toBeLessThan(lost);
  expect(netLongwave({ ...sky, RsMJ: 0, RsoMJ: 0 })).toBe(lost);
});
