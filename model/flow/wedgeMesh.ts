import { cross, pairs, range } from "d3-array";
import { entry, last } from "../input/lists.ts";
import { type EdgeFaces, edgeFacesOf, type Face, facesOf } from "./mesh.ts";
import { soilShares } from "./soilShares.ts";
import { type TensorMesh, type TensorMeshInput, tensorMesh, type WallFaces } from "./tensorMesh.ts";

/**
 * The ground of one pot among others on a grid, in three dimensions: a square or a hexagon about the pot's axis. Its mirrors
 * leave one wedge to solve, from the middle of a side (towards the next pot) to a corner, or two of them side by side.
 *
 *        axis ●───────────┐ middle of a side, at the angle 0
 *              ╲    ╲   │ ·
 *               ╲ sector │ ·
 *                 ╲   ╲  │   side: no water crosses it
 *                   ╲    │
 *                      ╲ │
 *                        corner
 *
 * The rings about the pot are those of the axisymmetric mesh, out to the corner, each cut into sectors of one angle and by the
 * side; so pot, wall, rows and columns are the same in two dimensions and in three.
 */
export interface Wedge {
  corners: 4 | 6;
  /** Distance from the axis to the middle of a side, cm. */
  apothem: number;
  /** From the middle of a side to a corner. */
  sectors: number;
  /** 2: on to the middle of the next side. */
  halves: 1 | 2;
}

/** Parts of a ring that are cut off to less than this share join the ring before: their centres would lie outside. */
const SMALLEST_SHARE = 0.5;

/** Volumes and flows are those of the whole square or hexagon. `rEdges` go on to its corners. */
export function wedgeMesh(input: Omit<TensorMeshInput, "geometry">, wedge: Wedge): TensorMesh {
  const rings = tensorMesh({ geometry: "axisymmetric", ...input });
  const cut = cutRings(input.rEdges, wedge);
  const split = splitCells(rings, cut);
  const { cellCount } = split;
  const V = new Float64Array(cellCount);
  const rCell = new Float64Array(cellCount);
  const dCell = new Float64Array(cellCount);
  split.each((cell, ring, sector, isOwn) => {
    V[cell] = entry(V, cell) + (entry(rings.V, ring) * cut.inside(split.columnOf(ring), sector)) / cut.count;
    if (!isOwn) return;
    rCell[cell] = entry(rings.rCell, ring);
    dCell[cell] = entry(rings.dCell, ring);
  });
  const cellAt = sectorCells(rings, cut, split);
  const faces = joinedFaces([...ringFaces(rings, cut, split), ...sectorFaces(rings, cut, cellAt)]);
  const none = edgeFacesOf([]);
  return {
    cellCount,
    V,
    rCell,
    dCell,
    faces: facesOf(faces.map((face) => ({ ...face, drop: entry(dCell, face.b) - entry(dCell, face.a) }))),
    sides: {
      top: splitEdges(rings.sides.top, cut, split),
      bottom: splitEdges(rings.sides.bottom, cut, split),
      inner: none,
      outer: none,
    },
    grid: { ...rings.grid, V, cellAt, sectors: { edges: cut.angles, reach: wedge.apothem } },
    wall: splitWall(rings.wall, cut, split),
  };
}

/** What the sides leave of the rings, sector by sector. */
interface RingCut {
  count: number;
  /** Edges of the sectors. */
  angles: Float64Array;
  /** Share of ring i's part in a sector that lies inside. */
  inside(i: number, sector: number): number;
  /** Share of the arc at rEdges[line] in a sector that lies inside. */
  arc(line: number, sector: number): number;
  /** ∫ dr / r inside, along the edge between a sector and the next, from one distance to another. */
  along(r1: number, r2: number, sector: number): number;
}

function cutRings(rEdges: Float64Array, { corners, apothem, sectors, halves }: Wedge): RingCut {
  const corner = Math.PI / corners;
  const count = sectors * halves;
  const angleAt = (k: number) => (corner * k) / sectors;
  /** Angles from the nearest middle of a side. */
  const fromMiddle = (sector: number): [number, number] => {
    const k = sector < sectors ? sector : 2 * sectors - 1 - sector;
    return [angleAt(k), angleAt(k + 1)];
  };
  /** Below this angle a distance lies beyond the side. */
  const beyondUntil = (r: number) => (r > apothem ? Math.acos(apothem / r) : 0);
  const lengthBetween = (from: number, to: number) => Math.max(to - from, 0);
  return {
    count,
    angles: Float64Array.from({ length: count + 1 }, (_, k) => angleAt(k)),
    inside(i, sector) {
      const [from, to] = fromMiddle(sector);
      const [r1, r2] = [entry(rEdges, i), entry(rEdges, i + 1)];
      const beyondIn = (r: number) => Math.min(Math.max(beyondUntil(r), from), to);
      const [out, whole] = [beyondIn(r1), beyondIn(r2)];
      const cutPart = apothem ** 2 * (Math.tan(whole) - Math.tan(out)) - r1 ** 2 * (whole - out);
      return (cutPart + (r2 ** 2 - r1 ** 2) * (to - whole)) / ((r2 ** 2 - r1 ** 2) * (to - from));
    },
    arc(line, sector) {
      const [from, to] = fromMiddle(sector);
      return lengthBetween(Math.max(beyondUntil(entry(rEdges, line)), from), to) / (to - from);
    },
    along(r1, r2, sector) {
      const end = Math.min(r2, apothem / Math.cos(sector < sectors ? angleAt(sector + 1) : fromMiddle(sector)[0]));
      return end > r1 ? Math.log(end / r1) : 0;
    },
  };
}

/** The cells of the wedge, numbered downward as those of the rings are. */
interface SplitCells {
  cellCount: number;
  /** Column of a ring cell. */
  columnOf(ring: number): number;
  /** The cell that a ring cell's part in a sector belongs to; −1 outside. */
  cellOf(ring: number, sector: number): number;
  /** Every part that is inside; `isOwn` where the cell has its centre from it. */
  each(visit: (cell: number, ring: number, sector: number, isOwn: boolean) => void): void;
}

/** About the axis sectors meet in a point: the innermost column stays whole. */
function splitCells({ grid, rCell, dCell }: TensorMesh, { count, inside }: RingCut): SplitCells {
  const columns = grid.rCentre.length;
  const column = Array.from(rCell, (r) => grid.rCentre.indexOf(r));
  const row = Array.from(dCell, (d) => grid.dCentre.indexOf(d));
  const columnOf = (ring: number) => entry(column, ring);
  const cells = new Int32Array(rCell.length * count).fill(-1);
  const isOwn = new Uint8Array(cells.length);
  const before = (ring: number) => entry(grid.cellAt, entry(row, ring) * columns + columnOf(ring) - 1);
  const cellOf = (ring: number, sector: number) => entry(cells, ring * count + sector);
  let cellCount = 0;
  function place(ring: number, sector: number): number {
    const i = columnOf(ring);
    if (i === 0 && sector > 0) return cellOf(ring, 0);
    const share = inside(i, sector);
    if (share <= 1e-9) return -1;
    if (share < SMALLEST_SHARE) return cellOf(before(ring), sector);
    isOwn[ring * count + sector] = 1;
    return cellCount++;
  }
  for (let part = 0; part < cells.length; part++) cells[part] = place(Math.floor(part / count), part % count);
  return {
    cellCount,
    columnOf,
    cellOf,
    each(visit) {
      cells.forEach((cell, part) => {
        if (cell >= 0) visit(cell, Math.floor(part / count), part % count, isOwn[part] === 1);
      });
    },
  };
}

/** Cell numbers by sector, then row, then column. */
function sectorCells({ grid }: TensorMesh, { count, inside }: RingCut, { cellOf }: SplitCells): Int32Array {
  const columns = grid.rCentre.length;
  const boxes = grid.cellAt.length;
  return Int32Array.from({ length: boxes * count }, (_, k) => {
    const [box, sector] = [k % boxes, Math.floor(k / boxes)];
    const ring = entry(grid.cellAt, box);
    return ring < 0 || inside(box % columns, sector) <= 1e-9 ? -1 : cellOf(ring, sector);
  });
}

type Crossing = Omit<Face, "drop">;

/** The faces of the rings, each cut into sectors and by the side. */
function ringFaces(
  { faces }: TensorMesh,
  { count, inside, arc }: RingCut,
  { columnOf, cellOf }: SplitCells,
): Crossing[] {
  return [...faces.T].flatMap((T, f) => {
    const [a, b] = [entry(faces.a, f), entry(faces.b, f)];
    const [from, to] = [columnOf(a), columnOf(b)];
    const share = from === to ? (k: number) => inside(from, k) : (k: number) => arc(Math.max(from, to), k);
    return range(count).map((k) => ({
      a: cellOf(a, k),
      b: cellOf(b, k),
      T: (T * share(k)) / count,
    }));
  });
}

/** The faces between a sector and the next: a height × ∫ dr / (r Δθ), in as many images as make up the whole. */
function sectorFaces(rings: TensorMesh, { count, angles, along }: RingCut, cellAt: Int32Array): Crossing[] {
  const shares = soilShares(rings);
  const ringAt = rings.grid.cellAt;
  const columns = pairs(rings.grid.rEdges);
  const heights = pairs(rings.grid.dEdges, (upper, lower) => lower - upper);
  const turn = entry(angles, 1);
  const images = (2 * Math.PI) / last(angles);
  return range(count - 1).flatMap((k) => {
    const perHeight = columns.map(([r1, r2]) => (images * along(r1, r2, k)) / turn);
    return cross(heights, perHeight, (height, T) => T * height).flatMap((T, box) => {
      const ring = entry(ringAt, box);
      if (ring < 0 || box % columns.length === 0) return [];
      const [a, b] = [entry(cellAt, k * ringAt.length + box), entry(cellAt, (k + 1) * ringAt.length + box)];
      return [{ a, b, T: T * entry(shares, ring) }];
    });
  });
}

/** One face for each pair of cells: parts that have joined one cell may share several. */
function joinedFaces(crossings: readonly Crossing[]): Crossing[] {
  const known = new Map<string, Crossing>();
  for (const { a, b, T } of crossings) {
    if (a < 0 || b < 0 || a === b || T < 1e-12) continue;
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const face = known.get(key);
    if (face) face.T += T;
    else known.set(key, { a, b, T });
  }
  return [...known.values()];
}

function splitEdges(edges: EdgeFaces, { count, inside }: RingCut, { columnOf, cellOf }: SplitCells): EdgeFaces {
  const faces = [...edges.cell].flatMap((ring, f) => {
    const [area, T] = [entry(edges.area, f), entry(edges.T, f)];
    const place = { depth: entry(edges.depth, f), drop: entry(edges.drop, f), down: entry(edges.down, f) };
    return range(count).map((k) => {
      const share = inside(columnOf(ring), k) / count;
      return { ...place, cell: cellOf(ring, k), area: area * share, T: T * share };
    });
  });
  return edgeFacesOf(faces.filter(({ cell }) => cell >= 0));
}

function splitWall(wall: WallFaces, { count }: RingCut, { cellOf }: SplitCells): WallFaces {
  const sectors = range(count);
  const split = (values: Float64Array, share = 1) =>
    Float64Array.from([...values].flatMap((value) => sectors.map(() => value * share)));
  return {
    cell: Int32Array.from([...wall.cell].flatMap((ring) => sectors.map((k) => cellOf(ring, k)))),
    area: split(wall.area, 1 / count),
    T: split(wall.T, 1 / count),
    upper: split(wall.upper),
    lower: split(wall.lower),
    drop: split(wall.drop),
  };
}
