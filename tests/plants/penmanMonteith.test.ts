import fc from "fast-check";
import { expect, it } from "vitest";
import { windAtTwoMetres } from "../../model/checks/fao56.ts";
import { pressureFromMean, saturationSlope } from "../../model/plants/airHumidity.ts";
import {
  airPressure,
  netRadiation,
  penmanMonteithEToMm,
  psychrometricConstant,
} from "../../model/plants/penmanMonteith.ts";
import { expectClose } from "../support/close.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyDay = fc
  .record({
    lowC: between(-15, 25),
    range: between(0, 20),
    humidity: between(5, 100),
    wind: between(0, 10),
    RaMJ: between(5, 42),
    clearness: between(0.25, 0.75),
    altitudeMetres: between(0, 3000),
  })
  .map(({ lowC, range, humidity, clearness, RaMJ, ...rest }) => {
    const day = { highC: lowC + range, lowC };
    return { ...day, ...rest, RaMJ, ea: pressureFromMean(day, humidity), RsMJ: clearness * RaMJ, soilHeatMJ: 0 };
  });

it("without wind, sun alone is shared out: ETo = 0.408 Δ Rn/(Δ + γ), and never below 0", () => {
  fc.assert(
    fc.property(anyDay, (any) => {
      const day = { ...any, wind: 0 };
      const Delta = saturationSlope((day.highC + day.lowC) / 2);
      const gamma = psychrometricConstant(airPressure(day.altitudeMetres));
      const share = (0.408 * Delta * netRadiation(day)) / (Delta + gamma);
      expect(penmanMonteithEToMm(day)).toBeCloseTo(Math.max(0, share), 9);
    }),
  );
});

it("drier air in a breeze never lowers it, and heat that goes into the ground never raises it", () => {
  fc.assert(
    fc.property(anyDay, between(3, 10), (day, wind) => {
      expect(penmanMonteithEToMm({ ...day, soilHeatMJ: 0.5 })).toBeLessThanOrEqual(penmanMonteithEToMm(day));
      // In still air the other thing that damp air does weighs more: it keeps the ground's heat in.
      const [damp, dry] = [day.ea, 0.9 * day.ea].map((ea) => penmanMonteithEToMm({ ...day, wind, ea }));
      expect(dry).toBeGreaterThanOrEqual(damp!);
    }),
  );
});

it("wind measured at 2 m stays as it is, within the rounding of FAO-56's numbers, and slows towards the ground", () => {
  expectClose(windAtTwoMetres(3, 2), 3, { tolerance: 0.001, unit: "m/s", what: "wind at 2 m" });
  expect(windAtTwoMetres(3, 10)).toBeLessThan(3);
});
