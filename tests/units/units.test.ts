import { describe, expect, it } from "vitest";
import { CM3_PER_LITRE } from "../../model/units/factors.ts";
import {
  convert,
  fromModel,
  headOfSuction,
  type Quantity,
  suctionKPa,
  toModel,
  type Unit,
} from "../../model/units/units.ts";
import { expectClose } from "../support/close.ts";

/** NIST Handbook 44, Appendix C, and SP 811, B.8 (exact); kPa of a 1000 kg/m³ water column at 9.80665 m/s². */
const DEFINITIONS: [number, Unit, number, Unit][] = [
  [1, "in", 2.54, "cm"],
  [1, "ft", 12, "in"],
  [1, "ft", 30.48, "cm"],
  [1, "m", 100, "cm"],
  [1, "cm", 10, "mm"],
  [1, "L", 1000, "cm3"],
  [1, "US gal", 3785.411784, "cm3"],
  [1, "US gal", 231 * 2.54 ** 3, "cm3"],
  [9.80665, "kPa", 100, "cm of water"],
  [1, "kPa", 10.197162129779, "cm of water"],
  [1, "in/day", 2.54, "cm/day"],
  [1, "US gal/day", 3.785411784, "L/day"],
  [1, "L/min", 1440, "L/day"],
  [1, "US gal/min", 3.785411784, "L/min"],
  [1, "m²", 10_000, "cm²"],
  [1, "ft²", 30.48 ** 2, "cm²"],
  [1, "ft²", 144 * 2.54 ** 2, "cm²"],
  [0, "°C", 32, "°F"],
  [100, "°C", 212, "°F"],
  [-40, "°C", -40, "°F"],
  [98.6, "°F", 37, "°C"],
];

const QUANTITIES: Quantity[] = [
  "length",
  "distance",
  "volume",
  "flow",
  "conductivity",
  "suction",
  "temperature",
  "rain",
  "area",
  "hose flow",
];

describe("units", () => {
  it.each(DEFINITIONS)("hold to the definition: %d %s is %d %s, and back", (a, from, b, to) => {
    expectClose(convert(a, from, to), b, { tolerance: 1e-13, relative: true, unit: to, what: `${a} ${from}` });
    expectClose(convert(b, to, from), a, { tolerance: 1e-13, relative: true, unit: from, what: `${b} ${to}` });
  });

  it("keep the exact definitions exact", () => {
    expect(convert(1, "in", "cm")).toBe(2.54);
    expect(convert(1, "US gal", "cm3")).toBe(3785.411784);
    expect(CM3_PER_LITRE).toBe(1000);
    expect(convert(1, "ft²", "cm²")).toBe(929.0304);
    expect([-40, 0, 100].map((celsius) => convert(celsius, "°C", "°F"))).toEqual([-40, 32, 212]);
  });

  it("refuse to turn a length into a volume, naming both", () => {
    expect(() => convert(1, "cm", "L")).toThrow(/cm measures length, L measures volume/);
  });

  it("show suction as positive kPa of a negative head, and back", () => {
    expectClose(suctionKPa(-1000), 98.0665, { tolerance: 1e-10, unit: "kPa", what: "suction at h = -1000 cm" });
    expectClose(headOfSuction(98.0665), -1000, { tolerance: 1e-10, unit: "cm", what: "head at 98.0665 kPa" });
  });

  it("refuse to turn a temperature into a length", () => {
    expect(() => convert(1, "°C", "mm")).toThrow(/°C measures temperature, mm measures length/);
  });

  it.each(QUANTITIES)("bring %s back unchanged from either unit system", (quantity) => {
    for (const system of ["metric", "us"] as const)
      for (const value of [0, 0.05, 1, 7.3, 250])
        expectClose(toModel(fromModel(value, quantity, system), quantity, system), value, {
          // A temperature near 0 °C keeps the figures that it had beside 32 °F.
          tolerance: quantity === "temperature" ? 1e-14 * (32 + value) : 1e-14 * value,
          what: `${quantity} in ${system}`,
        });
  });

  it.each<[number, Quantity, number]>([
    [30, "temperature", 86],
    [25.4, "rain", 1],
    [929.0304, "area", 1],
    [3.785411784, "hose flow", 1],
  ])("hand a person of the US %d of the model's %s as %d", (value, quantity, shown) => {
    expectClose(fromModel(value, quantity, "us"), shown, { tolerance: 1e-12, what: quantity });
  });
});
