import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pressureFromMean } from "../../model/plants/airHumidity.ts";
import { penmanMonteithEToMm } from "../../model/plants/penmanMonteith.ts";
import { radiationOfSunshine } from "../../model/plants/radiation.ts";
import { hargreavesEToMm, referenceETo } from "../../model/plants/referenceEvapotranspiration.ts";
import { expectClose } from "../support/close.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("reference evapotranspiration by Hargreaves", () => {
  // 0.0023 · (20 + 17.8) · √16 · 0.408 · 25 = 3.547152.
  it("is by hand for a day of 28 and 12 degrees under 25 MJ: mean 20, range 16", () => {
    const ETo = hargreavesEToMm({ highC: 28, lowC: 12, RaMJ: 25 });
    expectClose(ETo, 3.547152, { tolerance: 1e-9, unit: "mm/day", what: "ETo" });
  });

  it("rises with the day's range about one mean", () => {
    fc.assert(
      fc.property(between(-10, 40), between(0, 15), between(0.1, 10), between(1, 45), (mean, half, more, RaMJ) => {
        const of = (spread: number) => hargreavesEToMm({ highC: mean + spread, lowC: mean - spread, RaMJ });
        expect(of(half + more)).toBeGreaterThan(of(half));
      }),
    );
  });

  it("is never negative, in deep frost either, and 0 in the dark", () => {
    expect(hargreavesEToMm({ highC: -25, lowC: -35, RaMJ: 5 })).toBe(0);
    expect(hargreavesEToMm({ highC: 10, lowC: 0, RaMJ: 0 })).toBe(0);
  });

  it("refuses a high below the low, and what is no number", () => {
    expect(() => hargreavesEToMm({ highC: 10, lowC: 12, RaMJ: 20 })).toThrow(
      "the day's high is 10 °C; it must not be below its low of 12 °C",
    );
    expect(() => hargreavesEToMm({ highC: Number.NaN, lowC: 12, RaMJ: 20 })).toThrow(RangeError);
  });
});

describe("reference evapotranspiration by the better way that the weather allows", () => {
  const day = { highC: 28, lowC: 12, RaMJ: 38, daylightHours: 14, altitudeMetres: 50 };

  it("is Hargreaves', and says so, where humidity, wind and sunshine are not known", () => {
    expect(referenceETo({ ...day, air: null })).toEqual({ EToMm: hargreavesEToMm(day), method: "Hargreaves" });
  });

  it("is Penman–Monteith's, and says so, where they are", () => {
    const { EToMm, method } = referenceETo({ ...day, air: { humidity: 60, wind: 2.5, sunHours: 9 } });
    const full = { ...day, ea: pressureFromMean(day, 60), wind: 2.5, soilHeatMJ: 0 };
    expect(method).toBe("Penman–Monteith");
    expect(EToMm).toBe(penmanMonteithEToMm({ ...full, RsMJ: radiationOfSunshine(38, 9, 14) }));
  });
});
