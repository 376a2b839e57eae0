import { expect, test } from "vitest";
import { evenEdges } from "../../../model/checks/evenEdges.ts";
import { givenFlux, givenHead } from "../../../model/checks/givenEdges.ts";
import { haverkamp } from "../../../model/checks/haverkamp.ts";
import { lineMesh } from "../../../model/checks/lineMesh.ts";
import { haverkampSoils } from "../../../model/checks/loadChecks.ts";
import { haverkampInfiltration } from "../../../model/checks/loadFlowChecks.ts";
import type { Boundary } from "../../../model/flow/boundary.ts";
import { gradedEdges } from "../../../model/flow/gridSpacing.ts";
import { soilTable } from "../../../model/soil/soilTable.ts";
import { rowNamed } from "../../../reference-data/load.ts";
import { expectClose } from "../../support/close.ts";
import { horizontalRow } from "../../support/horizontal.ts";
import { lastCrossing, solveSystem } from "../../support/solveSystem.ts";

// Haverkamp et al. (1977), Philip (1957): reference-data/checks/haverkamp.json and flow-haverkamp.json.
const CELL = 0.25;

function tableOf(name: string) {
  const { KsCmPerHour, ...parameters } = rowNamed(haverkampSoils(), name).parameters;
  return soilTable(haverkamp({ ...parameters, Ks: 24 * KsCmPerHour }), { wetEnd: -0.01 });
}

test.each(haverkampInfiltration().rows)("$name takes up the known water to 0.2 %, its front within a cell", (row) => {
  const table = tableOf(row.name);
  const mesh = lineMesh("column", evenEdges(0, 100, 100 / CELL));
  const { top } = mesh.sides;
  const edge: Boundary =
    "head" in row.edge ? givenHead(top, row.edge.head) : givenFlux(top, 24 * row.edge.fluxCmPerHour);
  const { states, balanceError } = solveSystem({
    mesh,
    table,
    start: row.startHead,
    boundaries: [givenHead(mesh.sides.bottom, row.startHead), edge],
    stops: row.hours.map((hours) => hours / 24),
    firstStep: 1e-6,
  });
  states.forEach(({ entered, theta }, k) => {
    const front = lastCrossing(mesh.dCell, theta, row.frontTheta);
    expectClose(front, row.frontDepth[k]!, { tolerance: CELL, unit: "cm", what: `front, ${row.hours[k]} h` });
    const [water, surface] = [row.infiltrated?.[k], row.surfaceTheta?.[k]];
    if (water !== undefined) {
      const what = `infiltrated, ${row.hours[k]} h`;
      expectClose(entered[1]!, water, { tolerance: 0.002, relative: true, unit: "cm", what });
    }
    if (surface !== undefined) {
      expectClose(theta[0]!, surface, {
        tolerance: 0.0005,
        unit: "cm³/cm³",
        what: `θ of the first cell, ${row.hours[k]} h`,
      });
    }
  });
  expect(balanceError).toBeLessThan(1e-6);
});

test("Yolo light clay absorbs horizontally in proportion to the root of time, by its sorptivity to 0.2 %", () => {
  const { name, startHead, horizontalPerRootHour: S } = rowNamed(haverkampInfiltration(), "Yolo light clay");
  const table = tableOf(name);
  const mesh = horizontalRow(gradedEdges(0, 60, "from", 0.01, 1.03, 1));
  const { states } = solveSystem({
    mesh,
    table,
    start: startHead,
    boundaries: [givenHead(mesh.sides.inner, 0)],
    stops: [1 / 24, 10 / 24, 50 / 24],
    firstStep: 1e-6,
    timeError: 1e-6,
  });
  for (const { t, entered } of states) {
    const rate = entered[0]! / Math.sqrt(24 * t);
    expectClose(rate, S!, { tolerance: 0.002, relative: true, unit: "cm/h^½", what: `I/√t, ${24 * t} h` });
  }
});
