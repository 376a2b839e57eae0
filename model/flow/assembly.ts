import type { SoilTable } from "../soil/soilTable.ts";
import { type Boundary, type BoundaryFlows, edgeRun, type Moment, type PotState } from "./boundary.ts";
import type { Ground } from "./ground.ts";
import { layerInterfaces } from "./interface.ts";
import type { Room } from "./kernel/kernel.ts";
import type { Mesh } from "./mesh.ts";
import type { MeshKernel } from "./meshKernel.ts";

/**
 * The flow equation on a mesh: for each cell V dθ/dt = inflow, the sum over its faces of
 *
 *   Q(a → b) = T [ φ(a) − φ(b) + (d_b − d_a) K̄ ],   K̄ = (φ(a) − φ(b)) / (h(a) − h(b))
 *
 * and over its boundary faces. The capillary part is an exact difference of the Kirchhoff potential φ, which carries a
 * sharp front on a coarse grid; K̄ is the mean of K over the heads between the two cells. Between nearly equal heads it
 * is the mean of the two K = dφ/dh, which the quotient tends to. Faces between two soils: see `layerInterfaces`.
 *
 * The kernel's cells hold u, which is set from outside, and what `evaluate` makes of it: the state of the soil with its
 * derivatives by u, K being dφ/dh of the table, so that the two belong together; the net `inflow`, cm³/day; its slopes by
 * u (`diagonal`, and `ab` and `ba` of the faces) and by the level dw; and how the pot's release grows with u.
 */
export interface Assembly {
  readonly mesh: Mesh;
  readonly ground: Ground;
  readonly boundaries: readonly Boundary[];
  readonly kernel: MeshKernel;
  /** By boundary, then by face. */
  readonly flows: readonly BoundaryFlows[];
  /** Flow out of the pot, cm³/day, and its derivative by the level. */
  readonly release: { Q: number; dQddw: number };
  evaluate(pot: PotState, moment: Moment): void;
  /**
   * The first stage's flow goes on for longer than the stage. A cell that roots or air empty meanwhile would give more than
   * it holds: they then leave what is beyond the water that they can have. A cell that rain or a plug fills would press
   * the rest on: it then runs off, or stays in the pot. What has entered changes by that much; gives what stays in the
   * pot, cm³.
   */
  giveBack(time: number, entered: Float64Array): number;
}

export function assembly(mesh: Mesh, ground: Ground, boundaries: readonly Boundary[], kernel: MeshKernel): Assembly {
  const { loops } = kernel;
  const room = kernel.beginRun();
  const layers = placeSoils(mesh, ground, kernel, room);
  const addInterfaces = layerInterfaces(mesh, ground, kernel, room);
  const release = { Q: 0, dQddw: 0 };
  const edges = boundaries.map((boundary) => {
    const run = edgeRun(kernel, room, boundary);
    const limits = limitsOf(boundary, ground, room);
    return { ...run, isFromPot: boundary.isFromPot, fill: boundary.begin(run), limits };
  });
  placeCorners(boundaries, ground, kernel);
  return {
    mesh,
    ground,
    boundaries,
    kernel,
    flows: edges.map(({ flows }) => flows),
    release,
    evaluate(pot, moment) {
      release.Q = 0;
      release.dQddw = 0;
      for (const { at, from, to } of layers) loops.evaluateCells(at, from, to);
      loops.addFaces();
      addInterfaces();
      for (const { fill, isFromPot, places, flows } of edges) {
        fill(pot, moment);
        loops.addFlows(...places, isFromPot);
        if (!isFromPot) continue;
        release.Q += flows.sums[0] ?? 0;
        release.dQddw += flows.sums[1] ?? 0;
      }
    },
    giveBack(time, entered) {
      let toPot = 0;
      edges.forEach(({ places, limits, isFromPot }, k) => {
        if (limits === undefined) return;
        const back = loops.giveBack(...places, limits, time);
        entered[k]! += back;
        if (isFromPot) toPot -= back;
      });
      return toPot;
    },
  };
}

/** Puts the tables and what hangs on them alone into the cells; the layers with the places of their tables. */
function placeSoils({ cellCount }: Mesh, ground: Ground, { cells, tables }: MeshKernel, room: Room) {
  const places = new Map<SoilTable, number>();
  const placeOf = (table: SoilTable) => {
    const at = places.get(table) ?? room.numbers(table.packed).at;
    places.set(table, at);
    return at;
  };
  for (let cell = 0; cell < cellCount; cell++) tables[cell] = placeOf(ground.tableOf(cell));
  for (const { table, from, to } of ground.layers) {
    cells.thetaR.fill(table.soil.thetaR, from, to);
    cells.thetaS.fill(table.soil.thetaS, from, to);
    cells.uSaturated.fill(table.uAtHead(0), from, to);
  }
  return ground.layers.map(({ table, from, to }) => ({ at: placeOf(table), from, to }));
}

/** Address of the water contents at which a boundary's flow ends, by face. */
const limitsOf = ({ cell, endHead }: Boundary, ground: Ground, room: Room): number | undefined =>
  endHead === undefined ? undefined : room.numbers(Array.from(cell, (c) => ground.tableOf(c).soil.theta(endHead))).at;

/** u at which a boundary's flow sets in at once; −Infinity where none does. */
function placeCorners(boundaries: readonly Boundary[], ground: Ground, { cells: { uCorner } }: MeshKernel): void {
  uCorner.fill(Number.NEGATIVE_INFINITY);
  for (const { cell, cornerHead } of boundaries)
    if (cornerHead !== undefined) for (const c of cell) uCorner[c] = ground.uAtHead(c, cornerHead);
}
