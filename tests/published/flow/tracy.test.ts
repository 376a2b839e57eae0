import { expect, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { tracySquare } from "../../../model/checks/loadFlowChecks.ts";
import { tensorMesh } from "../../../model/flow/tensorMesh.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { solveSystem } from "../../support/solveSystem.ts";
import { tracyMode } from "../../support/tracy.ts";

// Tracy (2006), Water Resour. Res. 42:W08503, form recalled: reference-data/checks/flow-tracy.json. In cm and days.
const [side, alpha, driest] = [1524, 0.00328, -1524];
const parameters = { thetaR: 0.15, thetaS: 0.45, alpha, Ks: 86.4 };
const soil = gardner(parameters);
const dryK = Math.exp(alpha * driest);
const mode = tracyMode(parameters, side, Math.PI / side);

/** Head at x and at the height z; steady when t is Infinity. */
function headAt(x: number, z: number, t: number): number {
  const wet = (1 - dryK) * Math.sin((Math.PI * x) / side) * mode(z, t);
  return Math.log(dryK + wet) / alpha;
}

const { rows } = tracySquare();

test.each(rows)("the series of Tracy gives the known heads $name", ({ hours, points }) => {
  for (const { x, z, h } of points) {
    const head = headAt(100 * x, 100 * z, hours === null ? Number.POSITIVE_INFINITY : hours / 24) / 100;
    expectClose(head, h, { tolerance: 2e-5, unit: "m", what: `h at (${x}, ${z}) m` });
  }
});

test("40 by 40 cells wet Tracy's square as his solution says: θ to 0.3 % of the pore space, in time and at the end", () => {
  const table = soilTable(soil, { wetEnd: -0.01 });
  const edges = evenEdges(0, side, 40);
  const mesh = tensorMesh({ geometry: "planar", rEdges: edges, dEdges: edges });
  const { top, bottom, inner, outer } = mesh.sides;
  const topHeads = Float64Array.from(top.cell, (c) => headAt(mesh.rCell[c]!, side, Number.POSITIVE_INFINITY));
  const dry = [bottom, inner, outer].map((faces) => givenHead(faces, driest));
  const stops = [1, 10, 100];
  const { states, balanceError } = solveSystem({
    mesh,
    table,
    start: driest,
    boundaries: [...dry, givenHead(top, topHeads)],
    stops,
    timeError: 1e-4,
  });
  states.forEach(({ theta, t }) => {
    const exact = theta.map((_, i) => soil.theta(headAt(mesh.rCell[i]!, side - mesh.dCell[i]!, t)));
    const worst = theta.reduce((most, value, i) => Math.max(most, Math.abs(value - exact[i]!)), 0);
    expectClose(worst / 0.3, 0, { tolerance: 0.003, what: `largest error of θ after ${t} d, of the pore space` });
  });
  expect(balanceError).toBeLessThan(1e-6);
});
