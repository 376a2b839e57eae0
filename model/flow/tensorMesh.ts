import { pairs, range, rollup, sum } from "d3-array";
import { entry, first, last, present } from "../input/lists.ts";
import type { OutlinePoint } from "../pot/pot.ts";
import { cellCentres } from "./gridSpacing.ts";
import { type EdgeFace, type EdgeFaces, edgeFacesOf, type Face, facesOf, type Mesh, type Side } from "./mesh.ts";
import { cutPot, type PotCut, type WallPiece } from "./potCut.ts";
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
  const { cellAt, cells } = numberCells(boxes, cut, rEdges);
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

/** A column or a row of the grid. */
interface Span {
  index: number;
  from: number;
  to: number;
}

const spansOf = (edges: Float64Array): Span[] => pairs(edges).map(([from, to], index) => ({ index, from, to }));

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
  const columns = spansOf(rEdges);
  const boxAt = (row: Span, column: Span): Box => {
    const whole = measure.level(column.from, column.to) * (row.to - row.from);
    const [r, d] = [entry(rCentre, column.index), entry(dCentre, row.index)];
    const taken = entry(cut.volume, row.index * columns.length + column.index);
    if (taken <= 1e-9 * whole) return { volume: whole, r, d, share: 1 };
    const volume = Math.max(whole - taken, 0);
    const share = volume / whole;
    if (share < 1e-9) return { volume: 0, r, d, share: 0 };
    return { volume, share, r, d };
  };
  return spansOf(dEdges).flatMap((row) => columns.map((column) => boxAt(row, column)));
}

interface Cell {
  volume: number;
  r: number;
  d: number;
}

/** Numbers the cells. Slivers then join theirs in an order in which the box that each belongs to has its cell already. */
function numberCells(boxes: Box[], cut: PotCut, rEdges: Float64Array): { cellAt: Int32Array; cells: Cell[] } {
  const columns = rEdges.length - 1;
  const target = sliverTargets(boxes, cut, rEdges);
  const cellAt = new Int32Array(boxes.length).fill(-1);
  const cells: Cell[] = [];
  boxes.forEach((box, k) => {
    if (target[k] !== k) return;
    cellAt[k] = cells.length;
    cells.push({ volume: box.volume, r: box.r, d: box.d });
  });
  const column = (k: number) => k % columns;
  const share = (k: number) => entry(boxes, k).share;
  const slivers = range(boxes.length).filter((k) => target[k] !== k && target[k] !== -1);
  for (const k of slivers.sort((p, q) => column(q) - column(p) || share(q) - share(p))) {
    const cell = entry(cellAt, entry(target, k));
    // A level ledge folded back on itself is no wall: no soil lies beyond it.
    if (cell < 0) continue;
    cellAt[k] = cell;
    entry(cells, cell).volume += entry(boxes, k).volume;
  }
  return { cellAt, cells };
}

/**
 * For each box the box it belongs to: itself, or for a sliver a neighbour; −1 inside the pot. A sliver at a wall that lies
 * flatter than 45° belongs to the box across from the wall, if water passes to it and more of it is soil. Any other belongs to
 * the next box outward, to which water always passes, as the pot goes about the axis. So no chain of slivers turns back.
 */
function sliverTargets(boxes: Box[], cut: PotCut, rEdges: Float64Array): Int32Array {
  const columns = rEdges.length - 1;
  const normals = wallNormals(cut, columns);
  const outward = (k: number) => ((k + 1) % columns === 0 ? k : k + 1);
  return Int32Array.from(boxes, ({ share }, k) => {
    const normal = normals.get(k);
    if (share >= SMALLEST_SHARE) return k;
    if (!normal) return share > 0 ? outward(k) : -1;
    const line = Math.floor(k / columns) + (normal.d > 0 ? 1 : 0);
    const across = k + columns * Math.sign(normal.d);
    const isOpen = entry(cut.coveredRadius, line) < entry(rEdges, (k % columns) + 1);
    const isOwnSide = Math.abs(normal.d) >= normal.r && isOpen;
    return isOwnSide && (boxes[across]?.share ?? 0) > share ? across : outward(k);
  });
}

/** Of each box that holds wall, the sum of the wall's normals, each times its area. */
function wallNormals({ pieces }: PotCut, columns: number): Map<number, OutlinePoint> {
  return rollup(
    pieces,
    (inBox) => ({ r: sum(inBox, (p) => p.area * p.normal.r), d: sum(inBox, (p) => p.area * p.normal.d) }),
    ({ i, j }) => j * columns + i,
  );
}

/** Faces between columns. */
function verticalFaces({ rEdges, dEdges, cellAt }: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Face[] {
  const columns = spansOf(rEdges);
  const faceBetween = (row: Span, left: Span, right: Span | undefined): Face[] => {
    const k = row.index * columns.length + left.index;
    const open = row.to - row.from - entry(cut.coveredHeight, k);
    const [a, b] = [entry(cellAt, k), cellAt[k + 1] ?? -1];
    const [near, far] = [cells[a], cells[b]];
    if (!right || !near || !far || near === far || open < 1e-9) return [];
    const [ra, rb] = apart(near.r, far.r, right.to - left.from);
    return [{ a, b, T: open * measure.across(ra, rb), drop: far.d - near.d }];
  };
  return spansOf(dEdges).flatMap((row) => columns.flatMap((column, i) => faceBetween(row, column, columns[i + 1])));
}

/** Faces between rows. */
function horizontalFaces({ rEdges, dEdges, cellAt }: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Face[] {
  const columns = spansOf(rEdges);
  const faceBetween = (upper: Span, lower: Span, column: Span): Face[] => {
    const k = upper.index * columns.length + column.index;
    const open = openLevel(column, entry(cut.coveredRadius, lower.index), measure);
    const [a, b] = [entry(cellAt, k), entry(cellAt, k + columns.length)];
    const [above, below] = [cells[a], cells[b]];
    if (!above || !below || above === below || open < 1e-9) return [];
    const [da, db] = apart(above.d, below.d, lower.to - upper.from);
    return [{ a, b, T: open / (db - da), drop: db - da }];
  };
  return pairs(spansOf(dEdges)).flatMap(([upper, lower]) =>
    columns.flatMap((column) => faceBetween(upper, lower, column)),
  );
}

function openLevel({ from, to }: Span, covered: number, measure: Measure): number {
  return measure.level(Math.min(Math.max(from, covered), to), to);
}

/** Two centres, moved apart evenly when nearer than a fifth of the two cells' size (a fifth of half is usual). */
function apart(p: number, q: number, size: number): [number, number] {
  const lack = Math.max(0.2 * size - (q - p), 0) / 2;
  return [p - lack, q + lack];
}

function gridSides(grid: GridLines, cells: Cell[], cut: PotCut, measure: Measure): Record<Side, EdgeFaces> {
  const [columns, rows] = [spansOf(grid.rEdges), spansOf(grid.dEdges)];
  const cellIn = (row: Span, column: Span) => entry(grid.cellAt, row.index * columns.length + column.index);
  const level = (row: Span, line: number, depth: number, down: number) =>
    openFaces(columns, (column) => {
      const cell = cellIn(row, column);
      const drop = (cells[cell]?.d ?? depth) - depth;
      const area = openLevel(column, entry(cut.coveredRadius, line), measure);
      return { cell, area, depth, down, T: area / Math.abs(drop), drop };
    });
  const upright = (column: Span, radius: number) =>
    openFaces(rows, (row) => {
      const cell = cellIn(row, column);
      const { r, d } = cells[cell] ?? { r: 0, d: 0 };
      const height = row.to - row.from;
      const depth = (row.from + row.to) / 2;
      const T = Math.abs(measure.across(r, radius)) * height;
      return { cell, area: measure.upright(radius) * height, depth, down: 0, T, drop: d - depth };
    });
  const [top, bottom, inner, outer] = [first(rows), last(rows), first(columns), last(columns)];
  return {
    top: level(top, 0, top.from, -1),
    bottom: level(bottom, rows.length, bottom.to, 1),
    inner: upright(inner, inner.from),
    outer: upright(outer, outer.to),
  };
}

/** The faces of one side that border on soil and have an area: the axis has none. */
const openFaces = (spans: Span[], faceAt: (span: Span) => EdgeFace): EdgeFaces =>
  edgeFacesOf(spans.map(faceAt).filter(({ cell, area }) => cell >= 0 && area > 1e-9));

function wallFaces({ pieces }: PotCut, { rEdges, cellAt }: GridLines, cells: Cell[]): WallFaces {
  const columns = rEdges.length - 1;
  const faces = pieces.flatMap((piece) => {
    const cell = entry(cellAt, piece.j * columns + piece.i);
    const own = cells[cell];
    return own ? [{ ...piece, cell, own }] : [];
  });
  const areaOfCell = rollup(
    faces,
    (pieces) => sum(pieces, ({ area }) => area),
    ({ cell }) => cell,
  );
  return {
    cell: Int32Array.from(faces, (f) => f.cell),
    area: Float64Array.from(faces, (f) => f.area),
    T: Float64Array.from(faces, (f) => f.area / wallDistance(f, present(areaOfCell.get(f.cell), "area"))),
    upper: Float64Array.from(faces, (f) => f.start.d),
    lower: Float64Array.from(faces, (f) => f.end.d),
    drop: Float64Array.from(faces, (f) => f.own.d - (f.start.d + f.end.d) / 2),
  };
}

/**
 * Distance from a stretch of wall to a cell's centre along the wall's normal, as it counts for flow that spreads about
 * the axis: rw ln(rc / rw) for an upright wall, the plain distance for a level one. It is at least a tenth of the cell's
 * thickness before its wall (half is usual). Where the wall slants across the grid it is shortened two thirds as much as
 * `cellCentres` does before a straight wall, at most, at 45° (found by comparing grids).
 */
function wallDistance({ start, end, normal, own }: WallPiece & { own: Cell }, wallOfCell: number): number {
  const { r, d, volume } = own;
  const rw = (start.r + end.r) / 2;
  const along = (r - rw) * normal.r + (d - (start.d + end.d) / 2) * normal.d;
  const thickness = volume / wallOfCell;
  const slant = 2 * Math.abs(normal.r * normal.d);
  const plain = Math.max(along - (slant * thickness) / 24, 0.1 * thickness);
  const across = plain * normal.r;
  return Math.abs(across) < 1e-9 * rw ? plain : (plain * rw * Math.log1p(across / rw)) / across;
}
