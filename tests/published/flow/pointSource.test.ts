import cephes from "cephes";
import { beforeAll, describe, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenFlux, givenHead } from "../../../model/checks/givenEdges.ts";
import { pointSources } from "../../../model/checks/loadFlowChecks.ts";
import type { Boundary } from "../../../model/flow/boundary.ts";
import { gradedEdges, joinEdges } from "../../../model/flow/gridSpacing.ts";
import { tensorMesh } from "../../../model/flow/tensorMesh.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { expectClose } from "../../support/close.ts";
import { soilAt } from "../../support/kernel.ts";
import { cellNearest, solveSystem } from "../../support/solveSystem.ts";

beforeAll(() => cephes.compiled);

// Φ = 8π φ / (α Q) at R = α r/2, Z = α z/2, forms recalled: reference-data/checks/flow-point-source.json.

/** Warrick (1974): a source in unbounded soil, T = α k t/4 after it began. */
function unbounded(R: number, Z: number, T: number): number {
  const rho = Math.hypot(R, Z);
  const [a, b] = [rho / (2 * Math.sqrt(T)), Math.sqrt(T)];
  const sum = Math.exp(rho) * cephes.erfc(a + b) + Math.exp(-rho) * cephes.erfc(a - b);
  return (Math.exp(Z) / (2 * rho)) * sum;
}

/** Raats (1972): a source at the depth D under a surface that nothing crosses (at the surface itself for D = 0). */
function belowSurface(R: number, Z: number, D: number): number {
  const [rho1, rho2] = [Math.hypot(R, Z - D), Math.hypot(R, Z + D)];
  const image = Math.exp(Z + D - rho2) / rho2 - 2 * Math.exp(2 * (Z + D)) * cephes.expn(1, Z + D + rho2);
  return Math.exp(Z - D - rho1) / rho1 + Math.exp(-2 * D) * image;
}

/** T at which the flow is steady. */
const LATE = 100;

const exact = (R: number, Z: number, T: number | null, D: number | null) =>
  D === null ? unbounded(R, Z, T ?? LATE) : belowSurface(R, Z, D);

const { rows } = pointSources();

test.each(rows)("the closed form gives the tabled values, source $name", ({ T, depth, points }) => {
  for (const { R, Z, Phi } of points) {
    expectClose(exact(R, Z, T, depth), Phi, { tolerance: 6e-6, what: `Φ(${R}, ${Z})` });
  }
});

const [alpha, Ks, range, Q] = [0.1, 10, 0.4, 200];
const soil = gardner({ thetaR: 0.05, thetaS: 0.05 + range, alpha, Ks });
const table = soilTable(soil, { wetEnd: -1e-4, nodes: 2000 });
/** The flow equation is linear in φ: an even background conducts the same everywhere and adds nothing. */
const background = -4 / alpha;
const [CELL, NEAR, FAR] = [1, 30, 160];
const STEADY_DAYS = 100;

/** Even cells near the source, growing ones beyond; the surface at d = 0, the source in the cell about `depth`. */
function solvePoint(depth: number, isBounded: boolean, days: number[]) {
  const beyond = (from: number) => gradedEdges(from, from + FAR, "from", CELL, 1.15, FAR);
  const above = isBounded ? [0] : gradedEdges(0, depth - NEAR, "to", CELL, 1.15, FAR);
  const start = above.at(-1)!;
  const mesh = tensorMesh({
    geometry: "axisymmetric",
    rEdges: joinEdges([...evenEdges(0, NEAR, NEAR / CELL)], beyond(NEAR)),
    dEdges: joinEdges(above, [...evenEdges(start, depth + NEAR, (depth + NEAR - start) / CELL)], beyond(depth + NEAR)),
  });
  const source: Boundary = givenFlux(
    { ...mesh.sides.top, cell: Int32Array.of(cellNearest(mesh, 0, depth)), area: Float64Array.of(1) },
    Q,
  );
  const { bottom, outer, top } = mesh.sides;
  const even = [bottom, outer].map((faces) => givenHead(faces, background));
  const surface = isBounded ? givenFlux(top, soilAt(table, background).K) : givenHead(top, background);
  const { states } = solveSystem({
    mesh,
    table,
    start: background,
    boundaries: [...even, surface, source],
    stops: days,
    firstStep: 1e-3,
    // In proportion to the water that the source gives.
    timeError: 2e-8 * days.at(-1)!,
    newtonError: 1e-9,
  });
  return { mesh, states, source: mesh.dCell[source.cell[0]!]! };
}

describe.each(rows.filter(({ T }) => T === null || T < 10))("a source $name", ({ T, depth: D, points }) => {
  test("fed into one cell of 1 cm wets the soil from 5 cm on as the closed form says, to 2 %", () => {
    const toCm = 2 / alpha;
    const depth = D === null ? 130 : Math.floor(D * toCm) + CELL / 2;
    const { mesh, states, source } = solvePoint(depth, D !== null, [
      T === null ? STEADY_DAYS : (4 * T * range) / (alpha * Ks),
    ]);
    for (const point of points) {
      const cell = cellNearest(mesh, point.R * toCm, (D === null ? source : 0) + point.Z * toCm);
      const [R, d] = [mesh.rCell[cell]! / toCm, mesh.dCell[cell]!];
      const atSource = D === 0 ? 0 : source;
      const Phi = (8 * Math.PI * (soil.phi(states[0]!.h[cell]!) - soil.phi(background))) / (alpha * Q);
      const known = D === null ? exact(R, (d - source) / toCm, T, null) : exact(R, d / toCm, T, atSource / toCm);
      expectClose(Phi, known, { tolerance: 0.02, relative: true, what: `Φ(${point.R}, ${point.Z})` });
    }
  });
});
