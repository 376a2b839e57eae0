import { type CellState, cellState } from "../soil/soilTable.ts";
import { type Boundary, type BoundaryFlows, boundaryFlows, type Moment, type PotState } from "./boundary.ts";
import type { Ground } from "./ground.ts";
import { NEARLY_EQUAL_HEADS } from "./halfCell.ts";
import { layerInterfaces } from "./interface.ts";
import type { Mesh } from "./mesh.ts";
import { type MeshMatrix, meshMatrix } from "./sparseLU.ts";

// In the loops over cells and faces `!` stands in place of a check, which would cost time.

/**
 * The flow equation on a mesh: for each cell V dθ/dt = inflow, the sum over its faces of
 *
 *   Q(a → b) = T [ φ(a) − φ(b) + (d_b − d_a) K̄ ],   K̄ = (φ(a) − φ(b)) / (h(a) − h(b))
 *
 * and over its boundary faces. The capillary part is an exact difference of the Kirchhoff potential φ, which carries a
 * sharp front on a coarse grid; K̄ is the mean of K over the heads between the two cells. Between nearly equal heads it
 * is the mean of the two K = dφ/dh, which the quotient tends to. Faces between two soils: see `layerInterfaces`.
 */
export interface Assembly {
  readonly mesh: Mesh;
  readonly ground: Ground;
  readonly boundaries: readonly Boundary[];
  /** By cell: u at which a boundary's flow sets in at once; −Infinity where none does. */
  readonly uCorner: Float64Array;
  /** Water content there. */
  readonly thetaCorner: Float64Array;
  /** State of the cells; `u` is set from outside, the rest by `evaluate`. */
  readonly soil: CellState;
  /** By boundary, then by face. */
  readonly flows: readonly BoundaryFlows[];
  /** Net flow into each cell, cm³/day. */
  readonly inflow: Float64Array;
  /** ∂inflow/∂u. */
  readonly jacobian: MeshMatrix;
  /** ∂inflow/∂dw by cell. */
  readonly dInflowDdw: Float64Array;
  /** Flow out of the pot, cm³/day, and its derivatives. */
  readonly release: { Q: number; dQddw: number; dQdu: Float64Array };
  evaluate(pot: PotState, moment: Moment): void;
}

/**
 * Beyond this difference of head, cm, the slopes leave out that K̄ changes with it: gravity is then next to nothing against
 * suction, but in soil that is nearly without water the head runs away with u and would lead Newton's method astray.
 */
const FAR_APART = 3000;

export function assembly(mesh: Mesh, ground: Ground, boundaries: readonly Boundary[]): Assembly {
  const { faces, cellCount } = mesh;
  const soil = cellState(cellCount);
  const flows = boundaries.map(boundaryFlows);
  const inflow = new Float64Array(cellCount);
  const jacobian = meshMatrix(mesh);
  const dInflowDdw = new Float64Array(cellCount);
  const release = { Q: 0, dQddw: 0, dQdu: new Float64Array(cellCount) };
  const interfaces = layerInterfaces(mesh, ground);

  function addFaces(): void {
    const { h, dH, phi, dPhi, K, dK } = soil;
    const { diagonal, ab, ba } = jacobian;
    const { otherT } = interfaces;
    for (let f = 0; f < ab.length; f++) {
      const a = faces.a[f]!;
      const b = faces.b[f]!;
      const T = otherT[f]!;
      const drop = faces.drop[f]!;
      let Q = T * (phi[a]! - phi[b]!);
      let dQa = T * dPhi[a]!;
      let dQb = -T * dPhi[b]!;
      if (drop !== 0) {
        const difference = h[a]! - h[b]!;
        if (Math.abs(difference) < NEARLY_EQUAL_HEADS) {
          Q += (T * drop * (K[a]! + K[b]!)) / 2;
          dQa += (T * drop * dK[a]!) / 2;
          dQb += (T * drop * dK[b]!) / 2;
        } else {
          const share = 1 / difference;
          const mean = share * Q;
          Q += drop * mean;
          const turn = Math.abs(difference) < FAR_APART ? mean : 0;
          dQa += drop * share * (dQa - turn * dH[a]!);
          dQb += drop * share * (dQb + turn * dH[b]!);
        }
      }
      inflow[a]! -= Q;
      inflow[b]! += Q;
      diagonal[a]! -= dQa;
      diagonal[b]! += dQb;
      ab[f] = -dQb;
      ba[f] = dQa;
    }
  }

  function addInterfaces(): void {
    interfaces.each(soil, (f, { Q, dQa, dQb }) => {
      const a = faces.a[f]!;
      const b = faces.b[f]!;
      inflow[a]! -= Q;
      inflow[b]! += Q;
      jacobian.diagonal[a]! -= dQa;
      jacobian.diagonal[b]! += dQb;
      jacobian.ab[f] = -dQb;
      jacobian.ba[f] = dQa;
    });
  }

  function addBoundary(boundary: Boundary, face: BoundaryFlows, pot: PotState, moment: Moment): void {
    const { cell, isFromPot } = boundary;
    boundary.evaluate(soil, pot, face, moment);
    for (let k = 0; k < cell.length; k++) {
      const c = cell[k]!;
      inflow[c]! += face.Q[k]!;
      jacobian.diagonal[c]! += face.dQdu[k]!;
      if (!isFromPot) continue;
      dInflowDdw[c]! += face.dQddw[k]!;
      release.Q += face.Q[k]!;
      release.dQddw += face.dQddw[k]!;
      release.dQdu[c]! += face.dQdu[k]!;
    }
  }

  function evaluate(pot: PotState, moment: Moment): void {
    for (const array of [inflow, jacobian.diagonal, dInflowDdw, release.dQdu]) array.fill(0);
    release.Q = 0;
    release.dQddw = 0;
    ground.evaluate(soil);
    addFaces();
    addInterfaces();
    boundaries.forEach((boundary, k) => {
      addBoundary(boundary, flows[k]!, pot, moment);
    });
  }

  const uCorner = cornersOf(boundaries, ground, cellCount);
  const thetaCorner = uCorner.map((u, cell) => (Number.isFinite(u) ? ground.tableOf(cell).thetaAt(u) : u));
  return {
    mesh,
    ground,
    boundaries,
    uCorner,
    thetaCorner,
    soil,
    flows,
    inflow,
    jacobian,
    dInflowDdw,
    release,
    evaluate,
  };
}

function cornersOf(boundaries: readonly Boundary[], ground: Ground, cellCount: number): Float64Array {
  const uCorner = new Float64Array(cellCount).fill(Number.NEGATIVE_INFINITY);
  for (const { cell, cornerHead } of boundaries)
    if (cornerHead !== undefined) for (const c of cell) uCorner[c] = ground.uAtHead(c, cornerHead);
  return uCorner;
}
