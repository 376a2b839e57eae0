/** Where no flow is found, the run fails with day, step and place: no number is made up. */
import { expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { type Ground, layeredGround } from "../../model/flow/ground.ts";
import { stageSolver } from "../../model/flow/stage.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { flowState, type Stepper, stepper } from "../../model/flow/timeStep.ts";
import { type March, march } from "../../model/flow/timeStepping.ts";
import { potWall } from "../../model/flow/wall.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { type SoilTable, soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { evenGround } from "../support/ground.ts";
import { evaluateAt, systemOn } from "../support/kernel.ts";
import { cylinder } from "../support/pots.ts";
import { classMean } from "../support/problems.ts";

const table = soilTable(vanGenuchten(classMean("loam")));

/** What stands after its head of 19 numbers says nothing: no flow can be found at a face. */
const broken: SoilTable = { ...table, packed: table.packed.map((x, k) => (k < 19 ? x : Number.NaN)) };

const pot = buildPot(cylinder);
const mesh = tensorMesh({
  geometry: "axisymmetric",
  rEdges: evenEdges(0, 30, 12),
  dEdges: evenEdges(0, 40, 16),
  outline: pot.outline,
});

/** Faces read the table that is told of their cell; the cells' own state comes from loam everywhere. */
const withTables = (tableOf: (cell: number) => SoilTable): Ground => ({ ...evenGround(mesh, table), tableOf });

const plan: March = {
  stops: [1],
  firstStep: 0.01,
  restartStep: 0.01,
  toleranceAt: () => ({ step: 1, newton: 0.01 }),
  levelLaw: () => undefined,
  remaining: () => undefined,
  emptyWithin: 0,
};

/** A day beside a pot kept full, in loam at −100 cm. */
function troubleWith(tableOf: (cell: number) => SoilTable) {
  const system = systemOn(mesh, withTables(tableOf), [potWall(mesh.wall, pot)]);
  const u = new Float64Array(mesh.cellCount).fill(table.uAtHead(-100));
  const state = flowState(system, u, { dw: 0, isEmpty: false });
  const course = march(state, stepper(system, stageSolver(system)), plan);
  let next = course.next();
  while (!next.done) next = course.next();
  return next.value;
}

it("at one stretch of the wall, it is that cell, from the first step on", () => {
  const cell = mesh.wall.cell[3]!;
  expect(troubleWith(() => table)).toBeUndefined();
  expect(troubleWith((c) => (c === cell ? broken : table))).toEqual({
    reason: "no flow was found, however short the time step",
    day: 0,
    step: 1,
    cell,
  });
});

it("in a run that hardly gets on, it is told within some thousand steps, with the cell that was last at fault", () => {
  const system = systemOn(mesh, evenGround(mesh, table), []);
  const begin = () => flowState(system, new Float64Array(mesh.cellCount), { dw: 0, isEmpty: true });
  let tries = 0;
  const crawling: Stepper = {
    next: begin(),
    attempt(state, dt) {
      this.next.t = state.t + dt;
      // An error of 0.85² leaves the size of a step as it is.
      return {
        isSolved: ++tries !== 5,
        size: dt,
        iterations: 9,
        error: 0.85 ** 2,
        misfit: 0,
        worstCell: tries === 5 ? 7 : 0,
      };
    },
    forget: () => {},
  };
  const course = march(begin(), crawling, { ...plan, firstStep: 1e-6 });
  let next = course.next();
  while (!next.done) next = course.next();
  expect(next.value).toMatchObject({ reason: "too many iterations", cell: 7 });
  expect(next.value!.step).toBeLessThan(3000);
});

it("at the wall, flow and slopes are not a number", () => {
  const system = systemOn(
    mesh,
    withTables(() => broken),
    [potWall(mesh.wall, pot)],
  );
  const { flows } = evaluateAt(system, { heads: () => -100, pot: { dw: 0, isEmpty: false } });
  for (const { Q, dQdu, dQddw } of flows)
    for (const values of [Q, dQdu, dQddw]) expect(values.every(Number.isNaN)).toBe(true);
});

it("between two soils, neither is the flow there, nor its slopes", () => {
  const layered = layeredGround(mesh, [
    { table: soilTable(vanGenuchten(classMean("sand"))), bottom: 30 },
    { table, bottom: Number.POSITIVE_INFINITY },
  ]);
  const { a, b, T } = mesh.faces;
  const between = [...T.keys()].filter((f) => layered.layerOf(a[f]!) !== layered.layerOf(b[f]!));
  const slopesWith = (ground: Ground) => {
    const system = systemOn(mesh, ground, []);
    evaluateAt(system, { heads: (cell) => (mesh.dCell[cell]! < 30 ? -20 : -2000) });
    const { faces, cells } = system.kernel;
    return between.flatMap((f) => [faces.ab[f]!, faces.ba[f]!, cells.inflow[a[f]!]!, cells.inflow[b[f]!]!]);
  };
  expect(slopesWith(layered).every(Number.isFinite)).toBe(true);
  const tableOf = (cell: number) => (layered.layerOf(cell) === 0 ? broken : table);
  const none = slopesWith({ ...layered, tableOf });
  expect(none.length).toBeGreaterThan(0);
  expect(none.every(Number.isNaN)).toBe(true);
});
