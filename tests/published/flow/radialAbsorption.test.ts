import { sum } from "d3-array";
import { test } from "vitest";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { type LineShape, lineMesh } from "../../../model/checks/lineMesh.ts";
import { cylinderAbsorption, radialAbsorption } from "../../../model/checks/loadFlowChecks.ts";
import { edgePlace, frontShape } from "../../../model/flow/front.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import { potWall } from "../../../model/flow/wall.ts";
import { buildPot } from "../../../model/pot/buildPot.ts";
import { type SoilTable, soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { rowNamed, textureClasses } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { cylinder } from "../../support/pots.ts";
import { solveSystem } from "../../support/solveSystem.ts";

const RADIUS = 10;

const shellEdges = (outer: number, smallest: number, largest: number) =>
  Float64Array.from(gradedEdges(RADIUS, outer, "from", smallest, 1.03, largest));

const shells = (shape: LineShape, ...size: Parameters<typeof shellEdges>) => lineMesh(shape, shellEdges(...size));

/** Water error allowed in a time step, cm over the water's edge. */
const TIME_ERROR = 3e-4;

function absorbed(mesh: ReturnType<typeof lineMesh>, table: SoilTable, start: number, stops: number[]) {
  const { states } = solveSystem({
    mesh,
    table,
    start,
    boundaries: [givenHead(mesh.sides.inner, 0)],
    stops,
    firstStep: 1e-7,
    timeError: (TIME_ERROR * mesh.sides.inner.area[0]!) / sum(mesh.V),
  });
  return states;
}

// Own reference runs: reference-data/checks/flow-radial-absorption.json.
const runs = radialAbsorption().rows;
const soilOf = (name: string) => vanGenuchten(rowNamed(textureClasses(), name).mean);
const tableOf = (name: string) => soilTable(soilOf(name), { wetEnd: -0.001 });
const shapeOf = (name: string) => frontShape(soilOf(name), -1000);

test.each(runs)("$name absorbs the known water to 0.1 % and wets as far to 1 %", ({ soilClass, shape, held }) => {
  const edges = shellEdges(400, 0.05, 10);
  const mesh = shells(shape, 400, 0.05, 10);
  const states = absorbed(
    mesh,
    tableOf(soilClass),
    -1000,
    held.map(({ day }) => day),
  );
  held.forEach(({ day, absorbed: known, radius }, k) => {
    const I = states[k]!.entered[0]! / mesh.sides.inner.area[0]!;
    expectClose(I, known, { tolerance: 0.001, relative: true, unit: "cm", what: `absorbed in ${day} d` });
    const { h, theta } = states[k]!;
    const end = edges.slice(1);
    const front = edgePlace({ x: mesh.rCell, end, h, theta, direction: "outward" }, -330, shapeOf(soilClass));
    expectClose(front, radius, { tolerance: 0.01, relative: true, unit: "cm", what: `radius of -330 cm, ${day} d` });
  });
});

test.each(runs)("through a wall $name absorbs the known water to 0.1 %", ({ soilClass, shape, throughWall }) => {
  const mesh = shells(shape, 200, 0.05, 5);
  const table = tableOf(soilClass);
  const { cell, area, T } = mesh.sides.inner;
  const flat = Float64Array.of(0);
  const wall = { cell, area, T, upper: flat, lower: flat, drop: flat };
  const { states } = solveSystem({
    mesh,
    table,
    start: -1000,
    boundaries: [potWall(wall, buildPot(cylinder))],
    pot: { dw: -10, isEmpty: false },
    stops: throughWall.map(({ day }) => day),
    timeError: 1e-7,
  });
  throughWall.forEach(({ day, absorbed: known }, k) => {
    const I = states[k]!.entered[0]! / area[0]!;
    expectClose(I, known, { tolerance: 0.001, relative: true, unit: "cm", what: `absorbed in ${day} d` });
  });
});

// In Gardner soil D = K dh/dθ is the same at all water contents, and so the flow is linear.
const linear = { thetaR: 0.05, thetaS: 0.45, alpha: 0.05, Ks: 2 };
const D = linear.Ks / (linear.alpha * (linear.thetaS - linear.thetaR));
const START = -60;
const linearTable = soilTable(gardner(linear), { wetEnd: -1e-4 });
const fill = linear.thetaS - gardner(linear).theta(START);

// I = Δθ (2 √(D t / π) + D t / r0), Carslaw & Jaeger (1959), Conduction of Heat in Solids, §9.10.
test("with constant diffusivity a sphere absorbs as the exact solution says, to 0.1 %", () => {
  const mesh = shells("sphere", 400, 0.02, 10);
  for (const { t, entered } of absorbed(mesh, linearTable, START, [0.01, 0.1, 1, 10])) {
    const exact = fill * (2 * Math.sqrt((D * t) / Math.PI) + (D * t) / RADIUS);
    const I = entered[0]! / mesh.sides.inner.area[0]!;
    expectClose(I, exact, { tolerance: 0.001, relative: true, unit: "cm", what: `absorbed in ${t} d` });
  }
});

// Jacob & Lohman (1952): reference-data/checks/flow-cylinder-constant-diffusivity.json.
test("with constant diffusivity the flow into a cylinder falls as the function G, to 0.1 %", () => {
  const mesh = shells("cylinder", 3000, 0.02, 100);
  const rows = cylinderAbsorption().rows.filter(({ tau }) => tau >= 1e-3 && tau <= 1000);
  const states = absorbed(
    mesh,
    linearTable,
    START,
    rows.map(({ tau }) => (tau * RADIUS ** 2) / D),
  );
  rows.forEach(({ tau, G }, k) => {
    const flux = states[k]!.Q[0]! / mesh.sides.inner.area[0]!;
    expectClose((flux * RADIUS) / (D * fill), G, { tolerance: 0.001, relative: true, what: `G(${tau})` });
  });
});
