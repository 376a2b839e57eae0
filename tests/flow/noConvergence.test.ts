/** Where the search for a flow does not converge, the run fails with day, step and place: no number is made up. */
import { expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { assembly } from "../../model/flow/assembly.ts";
import { boundaryFlows } from "../../model/flow/boundary.ts";
import { layeredGround } from "../../model/flow/ground.ts";
import { layerInterfaces } from "../../model/flow/interface.ts";
import { minimumDegreeOrder } from "../../model/flow/ordering.ts";
import { CALM } from "../../model/flow/problem.ts";
import { sparseLU } from "../../model/flow/sparseLU.ts";
import { stageSolver } from "../../model/flow/stage.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { flowState, stepper } from "../../model/flow/timeStep.ts";
import { march } from "../../model/flow/timeStepping.ts";
import { potWall } from "../../model/flow/wall.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { cellState, type SoilTable, soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { evenGround } from "../support/ground.ts";
import { cylinder } from "../support/pots.ts";
import { classMean } from "../support/problems.ts";

const table = soilTable(vanGenuchten(classMean("loam")));

/** Says that φ rises ten thousand times as fast as it does: each step of a search is then next to nothing. */
const starved: SoilTable = {
  ...table,
  atHead(h) {
    const { phi, K } = table.atHead(h);
    return { phi, K: 1e4 * K };
  },
};

const pot = buildPot(cylinder);
const mesh = tensorMesh({
  geometry: "axisymmetric",
  rEdges: evenEdges(0, 30, 12),
  dEdges: evenEdges(0, 40, 16),
  outline: pot.outline,
});

/** A day beside a pot kept full, in loam at −100 cm. */
function troubleWith(tableOf: (cell: number) => SoilTable) {
  const ground = evenGround(mesh, table);
  const system = assembly(mesh, ground, [potWall(mesh.wall, pot, { tableOf })]);
  const lu = sparseLU(mesh, minimumDegreeOrder(mesh, mesh.rCell));
  const u = new Float64Array(mesh.cellCount).fill(table.uAtHead(-100));
  const state = flowState(system, u, { dw: 0, isEmpty: false });
  const course = march(state, stepper(system, stageSolver(system, lu)), {
    stops: [1],
    firstStep: 0.01,
    restartStep: 0.01,
    toleranceAt: () => ({ step: 1, newton: 0.01 }),
    levelLaw: () => undefined,
    remaining: () => undefined,
    emptyWithin: 0,
  });
  let next = course.next();
  while (!next.done) next = course.next();
  return next.value;
}

it("at one stretch of the wall, it is that cell, from the first step on", () => {
  const cell = mesh.wall.cell[3]!;
  expect(troubleWith(() => table)).toBeUndefined();
  expect(troubleWith((c) => (c === cell ? starved : table))).toEqual({
    reason: "no flow was found, however short the time step",
    day: 0,
    step: 1,
    cell,
  });
});

it("at the wall, flow and slopes are not a number", () => {
  const wall = potWall(mesh.wall, pot, { tableOf: () => starved });
  const cells = cellState(mesh.cellCount);
  cells.u.fill(table.uAtHead(-100));
  table.evaluate(cells);
  const flows = boundaryFlows(wall);
  wall.evaluate(cells, { dw: 0, isEmpty: false }, flows, { t: 0, spell: CALM });
  for (const values of [flows.Q, flows.dQdu, flows.dQddw]) expect(values.every(Number.isNaN)).toBe(true);
});

it("between two soils, neither is the flow there, nor its slopes", () => {
  const flowsWith = (upper: SoilTable) => {
    const ground = layeredGround(mesh, [
      { table: upper, bottom: 30 },
      { table, bottom: Number.POSITIVE_INFINITY },
    ]);
    const cells = cellState(mesh.cellCount);
    cells.u.forEach((_, cell) => {
      cells.u[cell] = table.uAtHead(mesh.dCell[cell]! < 30 ? -20 : -2000);
    });
    ground.evaluate(cells);
    const flows: number[] = [];
    layerInterfaces(mesh, ground).each(cells, (_, { Q, dQa, dQb }) => flows.push(Q, dQa, dQb));
    return flows;
  };
  expect(flowsWith(soilTable(vanGenuchten(classMean("sand")))).every(Number.isFinite)).toBe(true);
  const none = flowsWith({ ...starved, evaluate: table.evaluate });
  expect(none.length).toBeGreaterThan(0);
  expect(none.every(Number.isNaN)).toBe(true);
});
