/**
 * Cells and faces of a finite-volume mesh. The assembly knows nothing but these lists, so that a column, a cylinder, a
 * sphere, a planar slice and the soil about a pot are one to it.
 *
 *        0 ──► r  distance from the pot's axis        flux across face f, from cell a to cell b:
 *        │  soil surface, d = 0
 *        │   ┌──────┬──────┐                          T [ φ(a) − φ(b) + (d_b − d_a) K̄ ],   T = area / distance
 *        ▼   │  a   │  b   │
 *        d   ├──────┼──────┤                          K̄ = (φ(a) − φ(b)) / (h(a) − h(b))
 *      depth │      │      │
 *            └──────┴──────┘                          which is T K̄ (H_a − H_b) with H = h − d
 *
 * Lengths cm, areas cm², volumes cm³; axisymmetric and spherical cells are full rings and shells (2π, 4π included).
 */
export interface Mesh {
  readonly cellCount: number;
  /** Soil volume by cell. */
  readonly V: Float64Array;
  /** Centre of each cell: distance from the axis (or along x, or from the centre of a sphere) and depth. */
  readonly rCell: Float64Array;
  readonly dCell: Float64Array;
  readonly faces: Faces;
  /** Outer boundary of the mesh by side; a side with no faces is absent or empty. */
  readonly sides: Readonly<Record<Side, EdgeFaces>>;
}

export type Side = "top" | "bottom" | "inner" | "outer";

/** Faces between cells, all arrays of one length. */
export interface Faces {
  a: Int32Array;
  b: Int32Array;
  /** Area over distance between the centres, cm. */
  T: Float64Array;
  /** d_b − d_a. */
  drop: Float64Array;
}

/** Faces on the edge of the mesh, all arrays of one length. */
export interface EdgeFaces {
  cell: Int32Array;
  area: Float64Array;
  /** Area over the distance from the face to the cell's centre, cm. */
  T: Float64Array;
  /** Depth of the face, and depth of the cell's centre less that. */
  depth: Float64Array;
  drop: Float64Array;
  /** Downward component of the outward normal: 1 at the bottom, −1 at the top, 0 at the sides. */
  down: Float64Array;
}

export interface EdgeFace {
  cell: number;
  area: number;
  T: number;
  depth: number;
  drop: number;
  down: number;
}

export interface Face {
  a: number;
  b: number;
  T: number;
  drop: number;
}

export const facesOf = (list: readonly Face[]): Faces => ({
  a: Int32Array.from(list, (f) => f.a),
  b: Int32Array.from(list, (f) => f.b),
  T: Float64Array.from(list, (f) => f.T),
  drop: Float64Array.from(list, (f) => f.drop),
});

export const edgeFacesOf = (list: readonly EdgeFace[]): EdgeFaces => ({
  cell: Int32Array.from(list, (f) => f.cell),
  area: Float64Array.from(list, (f) => f.area),
  T: Float64Array.from(list, (f) => f.T),
  depth: Float64Array.from(list, (f) => f.depth),
  drop: Float64Array.from(list, (f) => f.drop),
  down: Float64Array.from(list, (f) => f.down),
});
