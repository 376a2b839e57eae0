import { range, sum } from "d3-array";
import { expect, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenFlux, givenHead } from "../../../model/checks/givenEdges.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { srivastavaYehColumn } from "../../../model/checks/loadFlowChecks.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { solveSystem } from "../../support/solveSystem.ts";

// Srivastava & Yeh (1991), Water Resour. Res. 27:753-762, form recalled: reference-data/checks/flow-srivastava-yeh.json.
const [alpha, KsHour, L, qA, qB] = [0.1, 1, 100, 0.1, 0.9];
const soil = gardner({ thetaR: 0.06, thetaS: 0.4, alpha, Ks: 24 * KsHour });
const length = alpha * L;

/** Roots of tan(λ L*) + 2λ = 0: one in each ((k − ½) π, k π) / L*, by bisection. */
const roots = range(1, 200).map((k) => {
  let [low, high] = [((k - 0.5) * Math.PI) / length, (k * Math.PI) / length];
  const misfit = (x: number) => Math.sin(x * length) + 2 * x * Math.cos(x * length);
  const sign = Math.sign(misfit(low));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (Math.sign(misfit(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
});

/** Head at a height z (cm) above the water table, `hours` after the flux rose; steady when null. */
function headAt(z: number, hours: number | null): number {
  const Z = alpha * z;
  const t = hours === null ? Number.POSITIVE_INFINITY : (alpha * KsHour * hours) / (soil.thetaS - soil.thetaR);
  const terms = roots.map(
    (l) => (Math.sin(l * Z) * Math.sin(l * length) * Math.exp(-l * l * t)) / (1 + length / 2 + 2 * l * l * length),
  );
  const steady = (q: number) => q - (q - 1) * Math.exp(-Z);
  const decay = 4 * (qB - qA) * Math.exp((length - Z) / 2 - t / 4) * sum(terms);
  return Math.log(t === 0 ? steady(qA) : steady(qB) - decay) / alpha;
}

const { rows } = srivastavaYehColumn();

test.each(rows)(
  "the series of Srivastava & Yeh gives the known heads and water contents $name",
  ({ hours, points }) => {
    for (const { z, h, theta } of points) {
      const head = headAt(z, hours);
      expectClose(head, h, { tolerance: 6e-4, unit: "cm", what: `h at ${z} cm` });
      expectClose(soil.theta(head), theta, { tolerance: 6e-5, unit: "cm³/cm³", what: `θ at ${z} cm` });
    }
  },
);

test("200 cells follow Srivastava & Yeh from one flux to the other: θ to 0.0001, everywhere and at all times", () => {
  const table = soilTable(soil, { wetEnd: -0.001 });
  const mesh = lineMesh("column", evenEdges(0, L, 200));
  const hours = [1, 5, 10, 20, 50];
  const { states, balanceError } = solveSystem({
    mesh,
    table,
    start: (_, d) => headAt(L - d, 0),
    boundaries: [givenHead(mesh.sides.bottom, 0), givenFlux(mesh.sides.top, 24 * qB)],
    stops: hours.map((h) => h / 24),
    firstStep: 1e-5,
    timeError: 1e-6,
  });
  states.forEach(({ theta }, k) => {
    const exact = mesh.dCell.map((d) => soil.theta(headAt(L - d, hours[k]!)));
    const worst = theta.reduce((most, value, i) => Math.max(most, Math.abs(value - exact[i]!)), 0);
    expectClose(worst, 0, { tolerance: 1e-4, unit: "cm³/cm³", what: `largest error of θ after ${hours[k]} h` });
  });
  expect(balanceError).toBeLessThan(1e-9);
});
