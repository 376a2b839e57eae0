import { range, sum } from "d3-array";
import { test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { gardner } from "../../../model/checks/gardner.ts";
import { givenHead } from "../../../model/checks/givenEdges.ts";
import { cavityFlows } from "../../../model/checks/loadFlowChecks.ts";
import { gradedEdges, joinEdges } from "../../../model/flow/gridSpacing.ts";
import { tensorMesh } from "../../../model/flow/tensorMesh.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { rowNamed } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { soilAt } from "../../support/kernel.ts";
import { solveSystem } from "../../support/solveSystem.ts";

const RADIUS = 10;

/** Orders of the Bessel functions that are summed: enough for s = 10. */
const ORDERS = 40;

/** Modified spherical Bessel functions iₙ(s) by recurrence from high order down, scaled to i₀ = sinh(s)/s. */
function firstKind(s: number): number[] {
  const i = [0, 1e-280];
  for (let n = ORDERS; n > 0; n--) i.push(i.at(-2)! + ((2 * n + 1) / s) * i.at(-1)!);
  const scale = Math.sinh(s) / s / i.at(-1)!;
  return i.reverse().map((value) => value * scale);
}

/** kₙ(s) by recurrence from low order up, without a factor that is the same for all. */
function secondKind(s: number): number[] {
  const k = [1, 1 + 1 / s];
  for (let n = 1; n < ORDERS; n++) k.push(k[n - 1]! + ((2 * n + 1) / s) * k[n]!);
  return k;
}

/**
 * Q / (4π r₀ φ₀) = −s Σ (2n + 1) (−1)ⁿ iₙ(s)² kₙ′(s) / kₙ(s), s = α r₀/2, with kₙ′ = n kₙ/s − kₙ₊₁; own derivation of the
 * subject of Philip (1984), Soil Sci. Soc. Am. J. 48:724-729.
 */
function sphereFlow(s: number): number {
  const [i, k] = [firstKind(s), secondKind(s)];
  return -s * sum(range(ORDERS), (n) => (2 * n + 1) * (-1) ** n * i[n]! ** 2 * (n / s - k[n + 1]! / k[n]!));
}

// reference-data/checks/flow-cavity.json
const { points } = rowNamed(cavityFlows(), "sphere");

test.each(points)("the series for a sphere gives the tabled flow at s = $s", ({ s, value }) => {
  expectClose(sphereFlow(s), value, { tolerance: 1e-6, what: `Q/(4π r0 φ0), s = ${s}` });
});

/** Cells by the sphere, and how far the soil goes, in radii: the wider, the less gravity there is to carry water off. */
const grids = [
  { s: 0.1, cell: 2, reach: 50 },
  { s: 0.2, cell: 1, reach: 30 },
  { s: 0.25, cell: 1, reach: 30 },
  { s: 0.5, cell: 1, reach: 20 },
  { s: 1, cell: 1, reach: 20 },
  { s: 2, cell: 0.5, reach: 10 },
  { s: 5, cell: 0.25, reach: 10 },
];

/** Soil about a sphere, even cells by it and growing ones beyond. */
function meshAboutSphere(cell: number, reach: number) {
  const far = reach * RADIUS;
  const near = 1.2 * RADIUS;
  const count = Math.round(near / cell);
  const graded = (from: number, to: number, finest: "from" | "to") => gradedEdges(from, to, finest, cell, 1.25, far);
  const outline = range(181).map((j) => ({
    r: j === 180 ? 0 : RADIUS * Math.sin((Math.PI * j) / 180),
    d: far - RADIUS * Math.cos((Math.PI * j) / 180),
  }));
  return tensorMesh({
    geometry: "axisymmetric",
    rEdges: joinEdges([...evenEdges(0, near, count)], graded(near, far, "from")),
    dEdges: joinEdges(
      graded(0, far - near, "to"),
      [...evenEdges(far - near, far + near, 2 * count)],
      graded(far + near, 2 * far, "from"),
    ),
    outline,
  });
}

test.each(grids)("a sphere cut out of the grid gives the steady flow at s = $s to 1 %", ({ s, cell, reach }) => {
  const alpha = (2 * s) / RADIUS;
  const table = soilTable(gardner({ thetaR: 0.05, thetaS: 0.45, alpha, Ks: 10 }), { wetEnd: -1e-4, nodes: 2000 });
  const mesh = meshAboutSphere(cell, reach);
  const { top, bottom, outer } = mesh.sides;
  // The flow equation is linear in φ: an even background conducts the same everywhere and adds nothing to Q.
  const background = -4 / alpha;
  const { states } = solveSystem({
    mesh,
    table,
    start: background,
    boundaries: [...[bottom, outer, top].map((faces) => givenHead(faces, background)), givenHead(mesh.wall, 0)],
    stops: [1000],
    firstStep: 0.1,
    timeError: Number.POSITIVE_INFINITY,
    newtonError: 1e-6,
  });
  const flow = states[0]!.Q[3]! / (4 * Math.PI * RADIUS * (soilAt(table, 0).phi - soilAt(table, background).phi));
  const what = `Q/(4π r0 φ0), s = ${s}, ${mesh.cellCount} cells`;
  expectClose(flow, sphereFlow(s), { tolerance: 0.01, relative: true, what });
});
