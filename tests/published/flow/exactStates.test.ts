import { describe, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { givenFlux } from "../../../model/checks/givenEdges.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { freeDrainage } from "../../../model/flow/boundary.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import type { Mesh } from "../../../model/flow/mesh.ts";
import { tensorMesh } from "../../../model/flow/tensorMesh.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../../model/soil/vanGenuchten.ts";
import { rowNamed, textureClasses } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { soilAt } from "../../support/kernel.ts";
import { solveSystem } from "../../support/solveSystem.ts";

const table = soilTable(vanGenuchten(rowNamed(textureClasses(), "loam").mean));
const rEdges = Float64Array.from(gradedEdges(0, 60, "from", 1.7, 1.1, 6));
const dEdges = Float64Array.from(gradedEdges(0, 90, "from", 1.3, 1.1, 6));
const jar = [
  { r: 6, d: 0 },
  { r: 12, d: 10 },
  { r: 5, d: 21 },
  { r: 0, d: 21 },
];
const meshes: { name: string; mesh: Mesh }[] = [
  { name: "a column", mesh: lineMesh("column", dEdges) },
  { name: "rings", mesh: tensorMesh({ geometry: "axisymmetric", rEdges, dEdges }) },
  { name: "a slice", mesh: tensorMesh({ geometry: "planar", rEdges, dEdges }) },
  { name: "soil about a jar", mesh: tensorMesh({ geometry: "axisymmetric", rEdges, dEdges, outline: jar }) },
];

describe.each(meshes)("$name", ({ mesh }) => {
  test("keeps heads at rest above a water table where they are for a hundred days", () => {
    const { states } = solveSystem({ mesh, table, start: (_, d) => d - 100, boundaries: [], stops: [100] });
    const worst = mesh.dCell.reduce((most, d, i) => Math.max(most, Math.abs(states[0]!.h[i]! - d + 100)), 0);
    expectClose(worst, 0, { tolerance: 1e-4, unit: "cm", what: "largest change of head" });
  });
});

test("a column of one head drains at K(h) and stays at it while as much is given", () => {
  const mesh = lineMesh("column", evenEdges(0, 100, 50));
  const { K } = soilAt(table, -50);
  const { states } = solveSystem({
    mesh,
    table,
    start: -50,
    boundaries: [freeDrainage(mesh.sides.bottom), givenFlux(mesh.sides.top, K)],
    stops: [10],
  });
  expectClose(-states[0]!.Q[0]!, K, { tolerance: 1e-6, relative: true, unit: "cm/day", what: "drainage" });
  const worst = states[0]!.h.reduce((most, h) => Math.max(most, Math.abs(h + 50)), 0);
  expectClose(worst, 0, { tolerance: 1e-4, unit: "cm", what: "largest change of head" });
});
