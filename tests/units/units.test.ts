import { describe, expect, it } from "vitest";
import {
  CM3_PER_LITRE,
  convert,
  fromModel,
  headOfSuction,
  suctionKPa,
  toModel,
  type Unit,
} from "../../model/units/units.ts";
import { expectClose } from "../support/close.ts";

/** NIST Handbook 44, Appendix C (exact); kPa of a 1000 kg/m³ water column at 9.80665 m/s². */
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
  });

  it("refuse to turn a length into a volume, naming both", () => {
    expect(() => convert(1, "cm", "L")).toThrow(/cm measures length, L measures volume/);
  });

  it("show suction as positive kPa of a negative head, and back", () => {
    expectClose(suctionKPa(-1000), 98.0665, { tolerance: 1e-10, unit: "kPa", what: "suction at h = -1000 cm" });
    expectClose(headOfSuction(98.0665), -1000, { tolerance: 1e-10, unit: "cm", what: "head at 98.0665 kPa" });
  });

  it.each(["length", "distance", "volume", "flow", "conductivity", "suction"] as const)(
    "bring %s back unchanged from either unit system",
    (quantity) => {
      for (const system of ["metric", "us"] as const)
        for (const value of [0, 0.05, 1, 7.3, 250])
          expectClose(toModel(fromModel(value, quantity, system), quantity, system), value, {
            tolerance: 1e-14,
            relative: true,
            what: `${quantity} in ${system}`,
          });
    },
  );
});
