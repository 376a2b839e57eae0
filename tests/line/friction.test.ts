import { describe, expect, it } from "vitest";
import { frictionFactor, frictionNumber } from "../../model/line/friction.ts";
import { NoConvergence } from "../../model/line/noConvergence.ts";
import { flowUnder, headLoss, type Pipe, velocityHead } from "../../model/line/pipe.ts";
import { kinematicViscosity } from "../../model/line/water.ts";
import { GRAVITY } from "../../model/units/factors.ts";
import { expectClose } from "../support/close.ts";

const NU = 1.004e-6;
const REYNOLDS = [1, 100, 1999, 2001, 2500, 3999, 4001, 1e4, 1e6, 1e8];
const ROUGHNESS = [0, 1e-4, 0.01, 0.05];
const hose: Pipe = { length: 10, innerDiameter: 0.013, roughness: 1e-5, minorLoss: 2.5 };
/** From a drip to 3 m/s, m³/s. */
const FLOWS = [1e-9, 1e-6, 2e-5, 2.2e-5, 4.2e-5, 1e-4, 4e-4];

describe("the friction factor", () => {
  it("fulfils Colebrook's equation to 1e-12 from Re 4000 on", () => {
    for (const Re of REYNOLDS.filter((value) => value > 4000)) {
      for (const roughness of ROUGHNESS) {
        const x = 1 / Math.sqrt(frictionFactor(Re, roughness));
        expect(Math.abs(x + 2 * Math.log10(roughness / 3.7 + (2.51 * x) / Re))).toBeLessThan(1e-12 * x);
      }
    }
  });

  it("is 64/Re up to 2000, and goes on from there to 4000 without a jump", () => {
    for (const roughness of ROUGHNESS) {
      expectClose(frictionFactor(1500, roughness), 64 / 1500, { tolerance: 1e-15, what: "f" });
      for (const Re of [2000, 4000]) {
        const jump = frictionFactor(Re * (1 + 1e-12), roughness) - frictionFactor(Re * (1 - 1e-12), roughness);
        expect(Math.abs(jump)).toBeLessThan(1e-12);
      }
    }
  });

  it("never lets the loss fall where the flow rises, and tells its slope", () => {
    for (const roughness of ROUGHNESS) {
      for (const Re of REYNOLDS) {
        const [below, above] = [0.99999 * Re, 1.00001 * Re].map((at) => frictionNumber(at, roughness).value);
        const { slope } = frictionNumber(Re, roughness);
        expect(above!).toBeGreaterThan(below!);
        expectClose((above! - below!) / (2e-5 * Re), slope, {
          tolerance: 1e-7,
          relative: true,
          what: `slope at ${Re}`,
        });
      }
    }
  });
});

describe("a pipe", () => {
  it("loses f L/D v²/2g and K v²/2g", () => {
    const Q = 2e-4;
    const Re = (4 * Q) / (Math.PI * hose.innerDiameter * NU);
    const heads = (frictionFactor(Re, hose.roughness / hose.innerDiameter) * hose.length) / hose.innerDiameter + 2.5;
    const v = Q / ((Math.PI / 4) * hose.innerDiameter ** 2);
    const expected = (heads * v ** 2) / (2 * GRAVITY);
    expectClose(headLoss(hose, Q, NU).loss, expected, { tolerance: 1e-13, relative: true, what: "loss", unit: "m" });
    expectClose(velocityHead(hose, Q), v ** 2 / (2 * GRAVITY), { tolerance: 1e-13, relative: true, what: "v²/2g" });
  });

  it("loses nothing at rest, and as much one way as the other", () => {
    expect(headLoss(hose, 0, NU).loss).toBe(0);
    for (const Q of FLOWS) expect(headLoss(hose, -Q, NU).loss).toBe(-headLoss(hose, Q, NU).loss);
  });

  it("tells how its loss grows with the flow", () => {
    for (const Q of FLOWS) {
      const difference = headLoss(hose, Q * (1 + 1e-6), NU).loss - headLoss(hose, Q * (1 - 1e-6), NU).loss;
      const { slope } = headLoss(hose, Q, NU);
      expectClose(difference / (2e-6 * Q), slope, { tolerance: 1e-6, relative: true, what: `slope at ${Q} m³/s` });
    }
  });

  it.each([
    ["with friction and fittings", hose],
    ["without fittings", { ...hose, minorLoss: 0 }],
    ["of no length", { ...hose, length: 0 }],
  ])("%s carries the flow that loses a given head, both ways", (_, pipe) => {
    for (const Q of [...FLOWS, ...FLOWS.map((flow) => -flow)]) {
      const back = flowUnder(pipe, headLoss(pipe, Q, NU).loss, NU);
      expectClose(back, Q, { tolerance: 1e-12, relative: true, what: "flow", unit: "m³/s" });
    }
    expect(flowUnder(pipe, 0, NU)).toBe(0);
  });

  it("that loses nothing has no flow that loses a head, and says so", () => {
    expect(() => flowUnder({ ...hose, length: 0, minorLoss: 0 }, 1, NU)).toThrow(NoConvergence);
  });

  it("so does a search for friction that comes to no end, and a head that is no number", () => {
    expect(() => frictionFactor(1e5, -1)).toThrow(NoConvergence);
    expect(() => flowUnder(hose, Number.NaN, NU)).toThrow(NoConvergence);
  });
});

describe("water", () => {
  it("is thinner the warmer it is", () => {
    for (let celsius = 0; celsius < 60; celsius += 5)
      expect(kinematicViscosity(celsius + 5)).toBeLessThan(kinematicViscosity(celsius));
  });

  it.each([-1, 68, Number.NaN])("of %s °C is refused with the allowed range", (celsius) => {
    expect(() => kinematicViscosity(celsius)).toThrow(`water of ${celsius} °C; it must be between 0 and 60 °C`);
  });
});
