import { pairs } from "d3-array";
import { describe, it } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { type GardnerParameters, gardner } from "../../../model/checks/gardner.ts";
import { givenFlux, givenHead } from "../../../model/checks/givenEdges.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { freeDrainage } from "../../../model/flow/boundary.ts";
import { joinEdges } from "../../../model/flow/gridSpacing.ts";
import { layeredGround } from "../../../model/flow/ground.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { expectClose } from "../../support/close.ts";
import { integrate } from "../../support/integrate.ts";
import { classMean } from "../../support/problems.ts";
import { solveSystem } from "../../support/solveSystem.ts";

/**
 * Two Gardner soils over a water table, rain q at the top, at rest: in each layer K = q + (K₀ − q) e^(−α z), z up from the
 * layer's lower end, where K₀ is its conductivity at the head that the two soils share (Srivastava & Yeh 1991, Water
 * Resour. Res. 27:753-762, steady state of their layered case; derived here from Darcy's law).
 */
function steadyHead(z: number, q: number, below: GardnerParameters, above: GardnerParameters, joint: number): number {
  const K = (K0: number, alpha: number, height: number) => q + (K0 - q) * Math.exp(-alpha * height);
  const lower = Math.log(K(below.Ks, below.alpha, Math.min(z, joint)) / below.Ks) / below.alpha;
  if (z <= joint) return lower;
  const K0 = above.Ks * Math.exp(above.alpha * lower);
  return Math.log(K(K0, above.alpha, z - joint) / above.Ks) / above.alpha;
}

const coarse = { thetaR: 0.06, thetaS: 0.4, alpha: 0.1, Ks: 240 };
const fine = { thetaR: 0.06, thetaS: 0.4, alpha: 0.01, Ks: 12 };
const DEPTH = 100;
const JOINT = 40;

function errorWith(cells: number, below: GardnerParameters, above: GardnerParameters): number {
  const q = 2.4;
  const table = (parameters: GardnerParameters) => soilTable(gardner(parameters), { wetEnd: -1e-3, nodes: 2000 });
  // Of twice the height below the joint, which then lies nearer to the upper centre.
  const rows = [evenEdges(0, DEPTH - JOINT, 0.75 * cells), evenEdges(DEPTH - JOINT, DEPTH, 0.25 * cells)];
  const mesh = lineMesh("column", joinEdges(...rows.map((edges) => [...edges])));
  const ground = layeredGround(mesh, [
    { table: table(above), bottom: DEPTH - JOINT },
    { table: table(below), bottom: Number.POSITIVE_INFINITY },
  ]);
  const { states } = solveSystem({
    mesh,
    ground,
    boundaries: [givenHead(mesh.sides.bottom, 0), givenFlux(mesh.sides.top, q)],
    start: -50,
    stops: [2000],
    timeError: 1e-3,
  });
  const errors = mesh.dCell.map((d, i) => states[0]!.h[i]! - steadyHead(DEPTH - d, q, below, above, JOINT));
  return Math.max(...errors.map(Math.abs));
}

describe("rain at rest in two layers over a water table", () => {
  it.each([
    ["coarse over fine", fine, coarse],
    ["fine over coarse", coarse, fine],
  ])("%s: heads are those of the closed form, and twice the cells err a quarter as much", (_, below, above) => {
    const errors = [40, 80, 160].map((cells) => errorWith(cells, below, above));
    expectClose(errors[2]!, 0, { tolerance: 0.003, unit: "cm", what: "largest error of the head, 160 cells" });
    for (const [more, less] of pairs(errors))
      expectClose(Math.log2(more / less), 2, { tolerance: 0.25, what: "order of accuracy" });
  });
});

/** Head some way above another under a steady downward flux q: dh/dz = q/K − 1, z up (Darcy's law). */
function headAbove(name: string, q: number, from: number, height: number): number {
  const soil = vanGenuchten(classMean(name));
  return integrate((_, h) => q / soil.K(h) - 1, from, height, 1e-9);
}

describe("van Genuchten soils on one another, draining freely", () => {
  it.each([
    ["sand", "clay"],
    ["clay", "sand"],
  ])("%s over %s: below the joint the gradient is 1, above it heads are those of Darcy's law", (top, native) => {
    const q = 0.1;
    const mesh = lineMesh("column", evenEdges(0, 100, 400));
    const layer = (name: string, bottom: number) => ({ table: soilTable(vanGenuchten(classMean(name))), bottom });
    const { states } = solveSystem({
      mesh,
      ground: layeredGround(mesh, [layer(top, 40), layer(native, Number.POSITIVE_INFINITY)]),
      boundaries: [freeDrainage(mesh.sides.bottom), givenFlux(mesh.sides.top, q)],
      start: -100,
      stops: [10_000],
      timeError: 1e-3,
    });
    const { h, Q } = states[0]!;
    expectClose(Q[0]!, -q, { tolerance: 1e-4, relative: true, unit: "cm/day", what: "drainage" });
    const atJoint = h[160]!;
    expectClose(vanGenuchten(classMean(native)).K(atJoint), q, { tolerance: 1e-3, relative: true, what: "K below" });
    for (const height of [1.125, 5.125, 20.125]) {
      const expected = headAbove(top, q, atJoint, height);
      const actual = h[(40 - height - 0.125) / 0.25]!;
      expectClose(actual, expected, { tolerance: 2e-3, relative: true, unit: "cm", what: `${height} cm up` });
    }
  });
});
