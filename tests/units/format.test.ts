import { describe, expect, it } from "vitest";
import { format, formatBoth, formatSuction } from "../../model/units/format.ts";
import type { Quantity, UnitSystem } from "../../model/units/units.ts";

const WORDS: [number, Quantity, UnitSystem, string][] = [
  [20, "length", "metric", "20 cm"],
  [20, "length", "us", "8 in"],
  [1.2, "length", "metric", "1.2 cm"],
  [1.27, "length", "us", "0.5 in"],
  [29.21, "length", "us", "11.5 in"],
  [9.97, "length", "metric", "10 cm"],
  [10.4, "length", "metric", "10 cm"],
  [0.042, "length", "metric", "0.042 cm"],
  [0, "length", "us", "0 in"],
  [-2, "length", "metric", "-2 cm"],
  [243.84, "distance", "us", "8 ft"],
  [243.84, "distance", "metric", "2.4 m"],
  [11, "volume", "metric", "11 L"],
  [11, "volume", "us", "2.9 US gal"],
  [3.5, "flow", "metric", "3.5 L/day"],
  [0.08, "conductivity", "metric", "0.08 cm/day"],
  [0.08, "conductivity", "us", "0.031 in/day"],
  [336.5, "suction", "us", "33 kPa"],
  [31.4, "temperature", "metric", "31 °C"],
  [31.4, "temperature", "us", "89 °F"],
  [12.7, "rain", "metric", "13 mm"],
  [12.7, "rain", "us", "0.5 in"],
  [5000, "area", "metric", "0.5 m²"],
  [5000, "area", "us", "5.4 ft²"],
  [12, "hose flow", "us", "3.2 US gal/min"],
];

describe("formatting", () => {
  it.each(WORDS)("writes %d of %s for %s as %s", (value, quantity, system, words) => {
    expect(format(value, quantity, system)).toBe(words);
  });

  it("puts the person's own unit first and the other in brackets", () => {
    expect(formatBoth(20, "length", "us")).toBe("8 in (20 cm)");
    expect(formatBoth(20, "length", "metric")).toBe("20 cm (8 in)");
  });

  it("says a suction once, since both unit systems use kPa", () => {
    expect(formatBoth(336.5, "suction", "us")).toBe("33 kPa");
    expect(formatSuction(-336.5)).toBe("33 kPa");
    expect(formatSuction(0)).toBe("0 kPa");
  });
});
