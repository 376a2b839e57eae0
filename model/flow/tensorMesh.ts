import { pairs, rollup, sum } from "d3-array";
import type { OutlinePoint } from "../pot/pot.ts";
import { cellCentres } from "./gridSpacing.ts";
import { type EdgeFace, type EdgeFaces, edgeFacesOf, type Face, facesOf, type Mesh, type Side } from "./mesh.ts";
import { cutPot, type PotCut } from "./potCut.ts";
import type { GridLines } from "./run.ts";

/** Soil about the axis (or a planar slice 1 cm thick) on a grid of rows and columns, a pot cut out of it. */
export interface TensorMesh extends Mesh {
  readonly grid: GridLines;
  /** Stretches of the pot's outer surface; empty without a pot. */
  readonly wall: WallFaces;
}

/** Stretches of wall, all arrays of one length: two in one cell stay apart. */
export interface WallFaces {
  cell: Int32Array;
  area: Float64Array;
  /** Area over distance to the cell's centre, cm. */
  T: Float64Array;
  /** Depth of the upper and the lower end. */
  upper: Float64Array;
  lower: Float64Array;
  /** Depth of the cell's centre less that of the stretch's middle. */
  drop: Float64Array;
}

export interface TensorMeshInput {
  geometry: "axisymmetric" | "planar";
  rEdges: Float64Array;
  dEdges: Float64Array;
  /** Outer surface of the pot, rim to axis. */
  outline?: readonly OutlinePoint[];
}

/** Cells that are soil to less than this share join a neighbour: their centres would lie in the pot. */
const SMALLEST_SHARE = 0.5;

export function tensorMesh({ geometry, rEdges, dEdges, outline = [] }: TensorMeshInput): TensorMesh {
  const cut = cutPot(outline, rEdges, dEdges);
  const measure = geometry === "axisymmetric" ? ringMeasure : slabMeasure;
  const rCentre = cellCentres(rEdges, straightLines(outline, "r"));
  const dCentre = cellCentres(dEdges, straightLines(outline, "d"));
  const boxes = soilBoxes({ rEdges, dEdges, rCentre, dCentre }, cut, measure);
  const { cellAt, cells } = numberCells(boxes, cut, rEdges.length - 1);
  const V = Float64Array.from(cells, (cell) => cell.volume);
  const grid = { rEdges, dEdges, rCentre, dCentre, cellAt, V };
  return {
    cellCount: cells.length,
    V,
    rCell: Float64Array.from(cells, (cell) => cell.r),
    dCell: Float64Array.from(cells, (cell) => cell.d),
    faces: facesOf([...verticalFaces(grid, cells, cut, measure), ...horizontalFaces(grid, cells, cut, measure)]),
    sides: gridSides(grid, cells, cut, measure),
    grid,
    wall: wallFaces(cut, grid, cells),
  };
}

/** Areas and conductances of a geometry, cm² and cm. */
interface Measure {
  /** Area of a horizontal face between two radii. */
  level(r1: number, r2: number): number;
  /** Area over distance between two radii, by height: the logarithmic law between cylinders. */
  across(ra: number, rb: number): number;
  /** Area of a vertical face by height. */
  upright(r: number): number;
}

const ringMeasure: Measure = {
  level: (r1, r2) => Math.PI * (r2 * r2 - r1 * r1),
  across: (ra, rb) => (2 * Math.PI) / Math.log(rb / ra),
  upright: (r) => 2 * Math.PI * r,
};

const slabMeasure: Measure = {
  level: (r1, r2) => r2 - r1,
  across: (ra, rb) => 1 / (rb - ra),
  upright: () => 1,
};

interface Box {
  volume: number;
  r: number;
  d: number;
  /** Share of the box that is soil. */
  share: number;
}

/** Radii of the outline's upright stretches, or depths of its level ones. */
function straightLines(outline: readonly OutlinePoint[], along: "r" | "d"): number[] {
  return pairs(outline).flatMap(([from, to]) => (from[along] === to[along] ? [from[along]] : []));
}

/**
 * Every box of the grid with what the pot leaves of it. Cut boxes keep their centre: only between centres in one row or
 * column does the difference of potential belong to the flow across the face, which is first order wrong with the
 * centroids of what is left.
 */
function soilBoxes(
  { rEdges, dEdges, rCentre, dCentre }: Omit<GridLines, "cellAt" | "V">,
  cut: PotCut,
  measure: Measure,
): Box[] {
  const columns = rEdges.length - 1;
  return Array.from({ length: columns * (dEdges.length - 1) }, (_, k) => {
    const [i, j] = [k % columns, Math.floor(k / columns)];
    const [r1, r2, d1, d2] = [rEdges[i]!, rEdges[i + 1]!, dEdges[j]!, dEdges[j + 1]!];
    const whole = measure.level(r1, r2) * (d2 - d1);
    const [r, d] = [rCentre[i]!, dCentre[j]!];
    const taken = cut.volume[k]!;
    if (taken <= 1e-9 * whole) return { volume: whole, r, d, share: 1 };
    const volume = Math.max(whole - taken, 0);
    const share = volume / whole;
    if (share < 1e-9) return { volume: 0, r, d, share: 0 };
    return { volume, share, r, d };
  });
}

interface Cell {
  volume: number;
  r: number;
  d: number;
}

/** Numbers the cells; slivers are joined to the neighbour that the wall faces. */
function numberCells(boxes: Box[], cut: PotCut, columns: number): { cellAt: Int32Array; cells: Cell[] } {
  const target = sliverTargets(boxes, cut, columns);
  const cellAt = new Int32Array(boxes.length).fill(-1);
  const cells: Cell[] = [];
  boxes.forEach((box, k) => {
    if (box.share === 0 || target[k] !== k) return;
    cellAt[k] = cells.length;
    cells.push({ volume: box.volume, r: box.r, d: box.d });
  });
  boxes.forEach((box, k) => {
    if (box.share === 0 || target[k] === k) return;
    let home = target[k]!;
    while (target[home] !== home) home = target[home]!;
    cellAt[k] = cellAt[home]!;
    cells[cellAt[k]!]!.volume += box.volume;
  });
  return { cellAt, cells };
}

/** For each box the box it belongs to: itself, or for a sliver the next one along the wall's normal. */
function sliverTargets(boxes: Box[], cut: PotCut, columns: number): Int32Array {
  const normal = boxes.map(() => ({ r: 0, d: 0 }));
  for (const piece of cut.pieces) {
    const sum = normal[piece.j * columns + piece.i]!;
    sum.r += piece.area * piece.normal.r;
    sum.d += piece.area * piece.normal.d;
  }
  return Int32Array.from(boxes, ({ share }, k) => {
    const { r, d } = normal[k]!;
    if (share >= SMALLEST_SHARE || share === 0 || (r === 0 && d === 0)) return k;
    const next = Math.abs(r) > Math.abs(d) ? k + Math.sign(r) : k + columns * Math.sign(d);
    return boxes[next]?.share ? next : k;
  });
}

/** Faces between columns. */
function verticalFaces({ rEdges, dEdges, cellAt }: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Face[] {
  const columns = rEdges.length - 1;
  const faces: Face[] = [];
  for (let k = 0; k < cellAt.length; k++) {
    const i = k % columns;
    const j = Math.floor(k / columns);
    if (i === columns - 1) continue;
    const open = dEdges[j + 1]! - dEdges[j]! - cut.coveredHeight[k]!;
    const [a, b] = [cellAt[k]!, cellAt[k + 1]!];
    if (a < 0 || b < 0 || a === b || open < 1e-9) continue;
    const [ra, rb] = apart(cells[a]!.r, cells[b]!.r, rEdges[i + 2]! - rEdges[i]!);
    faces.push({ a, b, T: open * measure.across(ra, rb), drop: cells[b]!.d - cells[a]!.d });
  }
  return faces;
}

/** Faces between rows. */
function horizontalFaces({ rEdges, dEdges, cellAt }: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Face[] {
  const columns = rEdges.length - 1;
  const faces: Face[] = [];
  for (let k = 0; k + columns < cellAt.length; k++) {
    const i = k % columns;
    const j = Math.floor(k / columns);
    const open = openLevel(rEdges, i, cut.coveredRadius[j + 1]!, measure);
    const [a, b] = [cellAt[k]!, cellAt[k + columns]!];
    if (a < 0 || b < 0 || a === b || open < 1e-9) continue;
    const [da, db] = apart(cells[a]!.d, cells[b]!.d, dEdges[j + 2]! - dEdges[j]!);
    faces.push({ a, b, T: open / (db - da), drop: db - da });
  }
  return faces;
}

function openLevel(rEdges: Float64Array, i: number, covered: number, measure: Measure): number {
  const outer = rEdges[i + 1]!;
  return measure.level(Math.min(Math.max(rEdges[i]!, covered), outer), outer);
}

/** Two centres, moved apart evenly when nearer than a fifth of the two cells' size (a fifth of half is usual). */
function apart(p: number, q: number, size: number): [number, number] {
  const lack = Math.max(0.2 * size - (q - p), 0) / 2;
  return [p - lack, q + lack];
}

function gridSides(grid: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Record<Side, EdgeFaces> {
  const { rEdges, dEdges, cellAt } = grid;
  const [columns, rows] = [rEdges.length - 1, dEdges.length - 1];
  const level = (j: number, line: number, down: number) =>
    openFaces(columns, (i) => {
      const cell = cellAt[j * columns + i]!;
      const depth = dEdges[line]!;
      const drop = (cells[cell]?.d ?? depth) - depth;
      const area = openLevel(rEdges, i, cut.coveredRadius[line]!, measure);
      return { cell, area, depth, down, T: area / Math.abs(drop), drop };
    });
  const upright = (i: number, line: number) =>
    openFaces(rows, (j) => {
      const cell = cellAt[j * columns + i]!;
      const { r, d } = cells[cell] ?? { r: 0, d: 0 };
      const height = dEdges[j + 1]! - dEdges[j]!;
      const depth = (dEdges[j]! + dEdges[j + 1]!) / 2;
      const T = Math.abs(measure.across(r, rEdges[line]!)) * height;
      return { cell, area: measure.upright(rEdges[line]!) * height, depth, down: 0, T, drop: d - depth };
    });
  return {
    top: level(0, 0, -1),
    bottom: level(rows - 1, rows, 1),
    inner: upright(0, 0),
    outer: upright(columns - 1, columns),
  };
}

/** The faces of one side that border on soil and have an area: the axis has none. */
function openFaces(count: number, faceAt: (k: number) => EdgeFace): EdgeFaces {
  const faces = Array.from({ length: count }, (_, k) => faceAt(k));
  return edgeFacesOf(faces.filter(({ cell, area }) => cell >= 0 && area > 1e-9));
}

function wallFaces({ pieces }: PotCut, { rEdges, cellAt }: GridLines, cells: Cell[]): WallFaces {
  const columns = rEdges.length - 1;
  const faces = pieces
    .map((piece) => ({ ...piece, cell: cellAt[piece.j * columns + piece.i]! }))
    .filter((piece) => piece.cell >= 0);
  const areaOfCell = rollup(
    faces,
    (pieces) => sum(pieces, ({ area }) => area),
    ({ cell }) => cell,
  );
  return {
    cell: Int32Array.from(faces, (f) => f.cell),
    area: Float64Array.from(faces, (f) => f.area),
    T: Float64Array.from(faces, (f) => f.area / wallDistance(f, cells[f.cell]!, areaOfCell.get(f.cell)!)),
    upper: Float64Array.from(faces, (f) => f.start.d),
    lower: Float64Array.from(faces, (f) => f.end.d),
    drop: Float64Array.from(faces, (f) => cells[f.cell]!.d - (f.start.d + f.end.d) / 2),
  };
}

/**
 * Distance from a stretch of wall to a cell's centre along the wall's normal, as it counts for flow that spreads about
 * the axis: rw ln(rc / rw) for an upright wall, the plain distance for a level one. It is at least a tenth of the cell's
 * thickness before its wall (half is usual). Where the wall slants across the grid it is shortened two thirds as much as
 * `cellCentres` does before a straight wall, at most, at 45° (found by comparing grids).
 */
function wallDistance(
  { start, end, normal }: PotCut["pieces"][number],
  { r, d, volume }: Cell,
  wallOfCell: number,
): number {
  const rw = (start.r + end.r) / 2;
  const along = (r - rw) * normal.r + (d - (start.d + end.d) / 2) * normal.d;
  const thickness = volume / wallOfCell;
  const slant = 2 * Math.abs(normal.r * normal.d);
  const plain = Math.max(along - (slant * thickness) / 24, 0.1 * thickness);
  const across = plain * normal.r;
  return Math.abs(across) < 1e-9 * rw ? plain : (plain * rw * Math.log1p(across / rw)) / across;
}
