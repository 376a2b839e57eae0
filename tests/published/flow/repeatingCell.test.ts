import { pairs } from "d3-array";
import { expect, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import type { TensorMesh } from "../../../model/flow/tensorMesh.ts";
import { wedgeMesh } from "../../../model/flow/wedgeMesh.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { isDeep } from "../../support/deep.ts";
import { solveSystem } from "../../support/solveSystem.ts";
import { tracyMode } from "../../support/tracy.ts";

/*
 * Tracy's solution (2006, see tests/support/tracy.ts) for the ground of one pot among others on a square grid, in three
 * dimensions: the water given along the top varies as cos(kx) cos(ky), which no side of the square passes, and is even otherwise.
 */
const [side, depth, alpha, driest] = [120, 120, 0.02, -300];
const parameters = { thetaR: 0.1, thetaS: 0.4, alpha, Ks: 20 };
const soil = gardner(parameters);
const dryK = Math.exp(alpha * driest);
const k = (2 * Math.PI) / side;
const [even, waves] = [tracyMode(parameters, depth, 0), tracyMode(parameters, depth, k * Math.SQRT2)];
const DAYS = [1, 4, 20];

function headAt(x: number, y: number, d: number, t: number): number {
  const z = depth - d;
  return Math.log(dryK + 0.5 * even(z, t) + 0.3 * Math.cos(k * x) * Math.cos(k * y) * waves(z, t)) / alpha;
}

/** Middle angle of each cell's sector. */
function angles({ grid: { cellAt, sectors }, cellCount }: TensorMesh): Float64Array {
  const { edges } = sectors!;
  const boxes = cellAt.length / (edges.length - 1);
  const angle = new Float64Array(cellCount);
  cellAt.forEach((cell, box) => {
    const sector = Math.floor(box / boxes);
    if (cell >= 0) angle[cell] = (edges[sector]! + edges[sector + 1]!) / 2;
  });
  return angle;
}

function solved(fineness: number, halves: 1 | 2) {
  const rEdges = evenEdges(0, (side / 2) * Math.SQRT2, 7 * fineness);
  const wedge = { corners: 4, apothem: side / 2, sectors: 2 * fineness, halves } as const;
  const mesh = wedgeMesh({ rEdges, dEdges: evenEdges(0, depth, 8 * fineness) }, wedge);
  const table = soilTable(soil, { wetEnd: -0.01 });
  const angle = angles(mesh);
  const exact = (cell: number, d: number, t: number) => {
    const r = mesh.rCell[cell]!;
    return headAt(r * Math.cos(angle[cell]!), r * Math.sin(angle[cell]!), d, t);
  };
  const { top, bottom } = mesh.sides;
  const topHeads = Float64Array.from(top.cell, (c) => exact(c, 0, Number.POSITIVE_INFINITY));
  const boundaries = [givenHead(top, topHeads), givenHead(bottom, driest)];
  const { states } = solveSystem({ mesh, table, start: driest, boundaries, stops: DAYS, timeError: 1e-4 });
  return { mesh, exact, states, theta: states.at(-1)!.theta };
}

/** Mean and largest error of θ, as shares of the pore space, on the worst day. */
function errorsOf(fineness: number, halves: 1 | 2) {
  const { mesh, exact, states } = solved(fineness, halves);
  const pores = mesh.V.reduce((sum, V) => sum + V, 0) * 0.3;
  const errors = states.map(({ theta, t }) => {
    const error = theta.map((value, c) => Math.abs(value - soil.theta(exact(c, mesh.dCell[c]!, t))));
    return { mean: error.reduce((sum, e, c) => sum + e * mesh.V[c]!, 0) / pores, worst: Math.max(...error) / 0.3 };
  });
  return { mean: Math.max(...errors.map(({ mean }) => mean)), worst: Math.max(...errors.map(({ worst }) => worst)) };
}

const boxesOf = ({ rCentre, dCentre }: TensorMesh["grid"]) => rCentre.length * dCentre.length;

test("water spreads from uneven rain through the ground of one pot as Tracy's solution says, to second order on the whole, and everywhere to 0.4 % of the pore space on cells of 4 cm, to four times as much on cells twice as large", () => {
  const finenesses = isDeep ? [1, 2, 4] : [1, 2];
  const errors = finenesses.map((fineness) => errorsOf(fineness, 1));
  const orders = pairs(errors, (coarse, fine) => Math.log2(coarse.mean / fine.mean));
  console.info(`errors of θ ${JSON.stringify(errors)}, orders of the mean ${orders}`);
  for (const order of orders) expect(order).toBeGreaterThan(1.8);
  errors.slice(1).forEach(({ worst }, k) => {
    expect(worst).toBeLessThan(0.016 / 4 ** k);
  });
});

test("a quarter of the square says the same as an eighth, and is alike on both sides of its diagonal", () => {
  const [quarter, eighth] = [solved(2, 2), solved(2, 1)];
  const { mesh, theta } = quarter;
  const at = ({ mesh: { grid }, theta }: typeof quarter, sector: number, box: number) =>
    theta[grid.cellAt[box + sector * boxesOf(grid)]!];
  let compared = 0;
  for (let box = 0; box < boxesOf(mesh.grid); box++)
    for (let sector = 0; sector < 4; sector++) {
      const [one, mirrored, single] = [at(quarter, sector, box), at(quarter, 7 - sector, box), at(eighth, sector, box)];
      if (one === undefined) continue;
      compared++;
      expectClose(mirrored!, one, { tolerance: 1e-9, what: "θ beyond the diagonal" });
      expectClose(single!, one, { tolerance: 1e-5, what: "θ in the eighth" });
    }
  expect(compared).toBeGreaterThan(theta.length / 3);
});
