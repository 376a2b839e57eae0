import { bisectLeft } from "d3-array";
import { entry } from "../input/lists.ts";
import { type CellLine, edgePlace, type FrontShape, frontShape } from "./front.ts";
import type { Ground } from "./ground.ts";
import type { Edge, Problem } from "./problem.ts";
import type { TensorMesh } from "./tensorMesh.ts";

// In reading lines of cells after every step `!` stands in place of a check, which would cost time.

/** Pressure head and water content by cell. */
interface CellValues {
  h: Float64Array;
  theta: Float64Array;
}

/** Where an edge stands in the soil as it is now; see `EdgeHistory`. */
export type EdgeReader = (soil: CellValues) => { radius: number; wettedDepth: number };

/** The shape of a front that moves through some cells, where that can be known. */
export type FrontShapes = (cells: Int32Array) => FrontShape | undefined;

/**
 * Shapes by the start's moisture. Sun and roots dry the soil ahead of a front, and rain wets it: there is no shape then,
 * nor one across two soils.
 */
export function frontShapes({ startHead, weather, roots }: Problem, ground: Ground): FrontShapes {
  if (weather.length > 0 || roots) return () => undefined;
  const known = new Map<number, FrontShape | undefined>();
  return (cells) => {
    const soils = cells.filter((cell) => cell >= 0);
    const [first, last] = [soils.at(0), soils.at(-1)];
    if (first === undefined || last === undefined) return undefined;
    const layer = ground.layerOf(first);
    if (ground.layerOf(last) !== layer) return undefined;
    if (!known.has(layer)) known.set(layer, frontShape(ground.tableOf(first).soil, startHead));
    return known.get(layer);
  };
}

/**
 * Radius along a line at the edge's depth: found in the two rows whose centres lie above and below it, and interpolated
 * between them. Depth along the axis.
 */
export function edgeReader(mesh: TensorMesh, { head, depth }: Edge, shapes: FrontShapes): EdgeReader {
  const centres = mesh.grid.dCentre;
  const below = Math.min(bisectLeft(centres, depth), centres.length - 1);
  const above = Math.max(below - 1, 0);
  const [depthAbove, depthBelow] = [entry(centres, above), entry(centres, below)];
  const placeOn = ({ read, cells }: Line) => {
    const shape = shapes(cells);
    return (soil: CellValues) => edgePlace(read(soil), head, shape);
  };
  const [upper, lower, axis] = [placeOn(rowLine(mesh, above)), placeOn(rowLine(mesh, below)), placeOn(axisLine(mesh))];

  function radius(soil: CellValues): number {
    const [near, far] = [upper(soil), lower(soil)];
    if (above === below || near === 0 || far === 0) return depth - depthAbove < depthBelow - depth ? near : far;
    const share = (depth - depthAbove) / (depthBelow - depthAbove);
    return near + Math.min(Math.max(share, 0), 1) * (far - near);
  }
  return (soil) => ({ radius: radius(soil), wettedDepth: axis(soil) });
}

interface Line {
  cells: Int32Array;
  /** The cells of the line with their values of now; the next reading overwrites them. */
  read(soil: CellValues): CellLine;
}

/** The cells of a row from the pot outward; of the first sector, towards the next pot, where rings are cut into sectors. */
function rowLine({ grid: { rEdges, cellAt, sectors }, rCell }: TensorMesh, j: number): Line {
  const columns = rEdges.length - 1;
  const row = cellAt.subarray(j * columns, (j + 1) * columns);
  const count = row.findLastIndex((cell) => cell >= 0) + 1;
  const ends = rEdges.map((edge) => Math.min(edge, sectors?.reach ?? edge));
  return cellLine(rCell, row.subarray(0, count), ends.subarray(0, count + 1), "outward");
}

/** The cells below the pot on the axis. */
function axisLine({ grid: { rEdges, dEdges, cellAt }, dCell }: TensorMesh): Line {
  const columns = rEdges.length - 1;
  const first = cellAt.subarray(0, columns * (dEdges.length - 1));
  return cellLine(
    dCell,
    first.filter((_, k) => k % columns === 0),
    dEdges,
    "down",
  );
}

/** The last unbroken run of cells; slivers joined to a neighbour count once. */
function cellLine(
  centre: Float64Array,
  numbers: Int32Array,
  edges: Float64Array,
  direction: CellLine["direction"],
): Line {
  const start = numbers.lastIndexOf(-1) + 1;
  const isLast = (cell: number, k: number) => k >= start && cell !== numbers[k + 1];
  const cells = numbers.filter(isLast);
  const line: CellLine = {
    x: Float64Array.from(cells, (cell) => entry(centre, cell)),
    end: edges.slice(1).filter((_, k) => isLast(entry(numbers, k), k)),
    h: new Float64Array(cells.length),
    theta: new Float64Array(cells.length),
    direction,
  };
  const read = ({ h, theta }: CellValues) => {
    for (let k = 0; k < cells.length; k++) {
      line.h[k] = h[cells[k]!]!;
      line.theta[k] = theta[cells[k]!]!;
    }
    return line;
  };
  return { cells, read };
}
