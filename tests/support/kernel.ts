import { type Assembly, assembly } from "../../model/flow/assembly.ts";
import type { Boundary, Moment, PotState } from "../../model/flow/boundary.ts";
import type { Ground } from "../../model/flow/ground.ts";
import type { CellField } from "../../model/flow/kernel/kernel.ts";
import type { Mesh } from "../../model/flow/mesh.ts";
import { meshKernel } from "../../model/flow/meshKernel.ts";
import { minimumDegreeOrder } from "../../model/flow/ordering.ts";
import { CALM } from "../../model/flow/problem.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import type { SoilTable } from "../../model/soil/soilTable.ts";
import { evenGround } from "./ground.ts";

/** A block of soil about an axis, of one cell. */
export const oneCell = (radius: number, depth: number) =>
  tensorMesh({ geometry: "axisymmetric", rEdges: Float64Array.of(0, radius), dEdges: Float64Array.of(0, depth) });

/** A mesh with its soils and boundaries, ready to be evaluated. */
export function systemOn(mesh: Mesh, ground: Ground, boundaries: Boundary[], drop = 0): Assembly {
  return assembly(mesh, ground, boundaries, meshKernel(mesh, minimumDegreeOrder(mesh, mesh.rCell), drop));
}

/** What hangs on the moment, calm without a pot where nothing is said. */
export interface State {
  heads: (cell: number) => number;
  pot?: PotState;
  moment?: Moment;
}

/** Puts the cells at heads, and evaluates. */
export function evaluateAt(system: Assembly, { heads, pot, moment }: State): Assembly {
  const { cells } = system.kernel;
  for (const cell of cells.u.keys()) cells.u[cell] = system.ground.uAtHead(cell, heads(cell));
  system.evaluate(pot ?? { dw: 0, isEmpty: true }, moment ?? { t: 0, spell: CALM });
  return system;
}

/** Serves every reader, one after another: a kernel of its own for each would take far longer than the reading. */
const cell = oneCell(1, 1);
const cellKernel = meshKernel(cell, minimumDegreeOrder(cell, cell.rCell));

/** Reads the soil functions of a table at any u, as the solver does; good until the next reader is made. */
export function soilReader(table: SoilTable): (u: number) => Record<CellField, number> {
  const system = assembly(cell, evenGround(cell, table), [], cellKernel);
  const { cells } = cellKernel;
  return (u) => {
    cells.u[0] = u;
    system.evaluate({ dw: 0, isEmpty: true }, { t: 0, spell: CALM });
    return Object.fromEntries(Object.entries(cells).map(([name, values]) => [name, values[0]!])) as Record<
      CellField,
      number
    >;
  };
}

/** The soil functions of a table at a head, as the solver reads them. */
export const soilAt = (table: SoilTable, h: number) => soilReader(table)(table.uAtHead(h));
