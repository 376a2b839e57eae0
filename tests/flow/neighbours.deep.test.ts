import { describe, expect, it } from "vitest";
import type { Neighbours } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { among, FINER } from "../support/neighbours.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const square = (spacing: number): Neighbours => ({ grid: "square", spacing });

describe("with pots 60 cm apart, against a grid of about 13 000 cells", () => {
  const errorsOf = (run: Run, truth: Run) =>
    run.rows.map(({ seepageLitres, wettedRadius, wettedDepth }, k) => {
      const row = truth.rows[k]!;
      return Math.max(
        Math.abs(seepageLitres / row.seepageLitres - 1),
        Math.abs(wettedRadius / row.wettedRadius - 1),
        Math.abs(wettedDepth / row.wettedDepth - 1),
      );
    });

  it.each(["sand", "loam", "clay"])(
    "in %s live is within two per cent and standard within one, in water given and front",
    (soil) => {
      const { cell } = among(cylinderProblem({ soil: classMean(soil), days: [0.25, 1, 3, 7] }), square(60));
      const truth = runToEnd(cell, { fineness: FINER });
      for (const accuracy of ["live", "standard"] as const) {
        const worst = Math.max(...errorsOf(runToEnd({ ...cell, accuracy }), truth));
        console.info(`${soil}, ${accuracy}: off by ${(100 * worst).toFixed(2)} %`);
        expect(worst).toBeLessThan(accuracy === "live" ? 0.02 : 0.01);
      }
    },
  );
});
