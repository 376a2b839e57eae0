import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gardner } from "../../model/checks/gardner.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { textureClasses } from "../../reference-data/load.ts";
import { expectClose } from "../support/close.ts";
import { soilAt, soilReader } from "../support/kernel.ts";
import { classMean } from "../support/problems.ts";
import { anyVanGenuchten } from "../support/soils.ts";

type Cell = ReturnType<ReturnType<typeof soilReader>>;

const suctions = Array.from({ length: 200 }, (_, k) =>
  Math.exp(Math.log(0.11) + ((Math.log(1e5) - Math.log(0.11)) * k) / 199),
);

describe("the soil table", () => {
  for (const { name, mean } of textureClasses().rows)
    it(`has θ, K and φ of ${name} to 0.03 % at any head drier than its wet end`, () => {
      const soil = vanGenuchten(mean);
      const table = soilTable(soil);
      const read = soilReader(table);
      const worst = { theta: 0, K: 0, phi: 0, h: 0 };
      for (const h of suctions.map((suction) => -suction)) {
        const cell = read(table.uAtHead(h));
        for (const [key, exact] of [
          ["theta", soil.theta(h)],
          ["K", soil.K(h)],
          ["phi", soil.phi(h)],
          ["h", h],
        ] as const)
          worst[key] = Math.max(worst[key], Math.abs(cell[key] / exact - 1));
      }
      for (const key of ["theta", "K", "phi", "h"] as const)
        expectClose(worst[key], 0, { tolerance: 3e-4, what: `${name}, worst relative error of ${key}` });
    });

  it("raises φ(0) by what its straight wet end lies above K, 1.4 % in the class-mean clay and 0.02 % in loam", () => {
    for (const [name, printed] of [
      ["clay", 0.014],
      ["loam", 0.0002],
    ] as const) {
      const soil = vanGenuchten(classMean(name));
      const above = 0.05 * (soil.K(-0.1) + soil.Ks) - (soil.phi(0) - soil.phi(-0.1));
      const what = `${name}, share by which φ(0) is raised`;
      const raised = soilAt(soilTable(soil), 0).phi / soil.phi(0) - 1;
      expectClose(raised, above / soil.phi(0), { tolerance: 2e-5, what });
      expectClose(raised, printed, { tolerance: 5e-5, what: `${what}, as the docstring has it` });
    }
  });

  it("gives saturated soil Ks, a potential that grows by Ks for each cm, and θs with a hundred-thousandth more by each cm", () => {
    const soil = vanGenuchten(textureClasses().rows[0]!.mean);
    const table = soilTable(soil);
    const cell = soilAt(table, 7);
    expect([cell.K, cell.dK]).toEqual([soil.Ks, 0]);
    expect(cell.theta - soil.thetaS).toBeCloseTo(7e-5, 12);
    expect(cell.dTheta / cell.dH).toBeCloseTo(1e-5, 12);
    expectClose(cell.h, 7, { tolerance: 1e-9, unit: "cm", what: "head" });
    expectClose(cell.phi - soilAt(table, 0).phi, 7 * soil.Ks, { tolerance: 1e-9, relative: true, what: "φ(7) − φ(0)" });
  });

  it("is exact for a Gardner soil, φ = K / α, to the table's own error", () => {
    const soil = gardner({ thetaR: 0.05, thetaS: 0.4, alpha: 0.02, Ks: 30 });
    const table = soilTable(soil);
    for (const h of [-300, -40, -1]) {
      const cell = soilAt(table, h);
      expectClose(cell.phi, (30 * Math.exp(0.02 * h)) / 0.02, { tolerance: 1e-5, relative: true, what: `φ(${h})` });
    }
  });

  it("has u-derivatives that match differences, and u that returns its head, for any van Genuchten soil", () => {
    fc.assert(
      fc.property(anyVanGenuchten, fc.double({ min: -3, max: 8, noNaN: true }), (parameters, lnSuction) => {
        const soil = vanGenuchten(parameters);
        const table = soilTable(soil);
        const h = -Math.exp(lnSuction);
        const u = table.uAtHead(h);
        if (soil.theta(h) - soil.thetaR < 1e-9) return;
        // A step in u that moves the head by a ten-thousandth, and away from the change of branches.
        const step = Math.abs(table.uAtHead(h * 1.0001) - u) || 1e-9;
        const [low, mid, high] = [u - step, u, u + step].map(soilReader(table)) as [Cell, Cell, Cell];
        const slope = (key: "theta" | "phi" | "K" | "h") => (high[key] - low[key]) / (2 * step);
        expect(Math.abs(mid.h / h - 1)).toBeLessThan(1e-4);
        const derivatives = [
          ["theta", "dTheta"],
          ["phi", "dPhi"],
          ["h", "dH"],
        ] as const;
        for (const [key, slopeKey] of derivatives) {
          const rounding = (1e-15 * Math.abs(mid[key])) / step;
          const allowed = 0.02 * Math.abs(mid[slopeKey]) + rounding;
          expect(Math.abs(slope(key) - mid[slopeKey]), key).toBeLessThanOrEqual(allowed);
        }
      }),
      { numRuns: 300 },
    );
  });
});
