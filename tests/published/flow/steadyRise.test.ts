import { test } from "vitest";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { haverkamp } from "../../../model/checks/haverkamp.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { steadyRise } from "../../../model/checks/loadFlowChecks.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { solveSystem } from "../../support/solveSystem.ts";

const { rows } = steadyRise();
const perRise = (n: number) => (Math.PI / (n * Math.sin(Math.PI / n))) ** n;

// Gardner (1958), Soil Sci. 85:228-232: reference-data/checks/flow-steady-rise.json.
test.each(rows)("Gardner's constant for $name is the tabled one, and the printed one to 1 %", ({ n, A, printed }) => {
  expectClose(perRise(n), A, { tolerance: 6e-4, what: "A" });
  expectClose(perRise(n), printed, { tolerance: 0.01, relative: true, what: "A as printed, recalled" });
});

const DRIEST = -1e5;

/**
 * Depth of the water table at a rise E of K = Ks A/(A + |h|^n), ∫ dh / (1 + E/K) from the water table to the surface:
 * Gardner's integral from 0 to −∞ with its saturated part kept, less its part beyond the head of the surface.
 */
function depthOf(E: number, Ks: number, A: number, n: number): number {
  const [c, e] = [1 + E / Ks, E / (Ks * A)];
  const whole = ((c / e) ** (1 / n) * Math.PI) / (n * Math.sin(Math.PI / n)) / c;
  return whole - (-DRIEST) ** (1 - n) / ((n - 1) * e);
}

test.each(rows)("water rises 50 cm to a dry surface as Gardner's integral says, to 0.2 %, for $name", ({ n }) => {
  const [depth, Ks, A] = [50, 20, 10 ** n];
  const soil = haverkamp({ thetaR: 0.05, thetaS: 0.4, retention: { form: "power", a: A, b: n }, Ks, A, B: n });
  const table = soilTable(soil, { wetEnd: -0.01 });
  const mesh = lineMesh("column", Float64Array.from(gradedEdges(0, depth, "from", 0.02, 1.05, 1)));
  const { states } = solveSystem({
    mesh,
    table,
    start: (_, d) => Math.min(d - depth, -0.1),
    boundaries: [givenHead(mesh.sides.bottom, 0), givenHead(mesh.sides.top, DRIEST)],
    stops: [100],
    timeError: 1e-4,
  });
  const E = states[0]!.Q[0]!;
  const what = `depth that gives ${E} cm/day`;
  expectClose(depthOf(E, Ks, A, n), depth, { tolerance: 0.002, relative: true, unit: "cm", what });
});
