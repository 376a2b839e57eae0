import fc from "fast-check";
import { expect, it } from "vitest";
import { pressureFromDewPoint, pressureFromExtremes } from "../../model/checks/fao56.ts";
import {
  meanSaturationPressure,
  pressureFromMean,
  saturationPressure,
  saturationSlope,
} from "../../model/plants/airHumidity.ts";
import { expectClose } from "../support/close.ts";

const celsius = fc.double({ min: -30, max: 45, noNaN: true });
const percent = fc.double({ min: 0, max: 100, noNaN: true });
const day = fc.tuple(celsius, celsius).map(([a, b]) => ({ highC: Math.max(a, b), lowC: Math.min(a, b) }));

it("saturation pressure has the slope that goes by its name", () => {
  // FAO-56 rounds 17.27 · 237.3 = 4098.17 to 4098: 4e-5.
  for (const T of [-20, 0, 20, 40]) {
    const step = 0.01;
    const slope = (saturationPressure(T + step) - saturationPressure(T - step)) / (2 * step);
    expectClose(saturationSlope(T), slope, {
      tolerance: 1e-4,
      relative: true,
      unit: "kPa/C",
      what: `slope at ${T} °C`,
    });
  }
});

it("a day's mean saturation pressure is above that of its mean temperature, for the curve bends upwards", () => {
  fc.assert(
    fc.property(day, ({ highC, lowC }) => {
      const straight = saturationPressure((highC + lowC) / 2);
      expect(meanSaturationPressure({ highC, lowC })).toBeGreaterThanOrEqual(straight * (1 - 1e-12));
    }),
  );
});

it("all ways to the vapour pressure agree on air of one temperature", () => {
  fc.assert(
    fc.property(celsius, percent, (T, humidity) => {
      const even = { highC: T, lowC: T };
      const share = (humidity / 100) * pressureFromDewPoint(T);
      expect(pressureFromMean(even, humidity)).toBeCloseTo(share, 12);
      expect(pressureFromExtremes(even, humidity, humidity)).toBeCloseTo(share, 12);
    }),
  );
});
