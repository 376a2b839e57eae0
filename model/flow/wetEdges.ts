import { bisectLeft } from "d3-array";
import { type CellLine, edgePlace, type FrontShape } from "./front.ts";
import type { Edge } from "./problem.ts";
import type { TensorMesh } from "./tensorMesh.ts";

/** Pressure head and water content by cell. */
interface CellValues {
  h: Float64Array;
  theta: Float64Array;
}

/** Where an edge stands in the soil as it is now; see `EdgeHistory`. */
export type EdgeReader = (soil: CellValues) => { radius: number; wettedDepth: number };

/**
 * Radius along a line at the edge's depth: found in the two rows whose centres lie above and below it, and interpolated
 * between them. Depth along the axis.
 */
export function edgeReader(mesh: TensorMesh, { head, depth }: Edge, shape: FrontShape): EdgeReader {
  const centres = mesh.grid.dCentre;
  const below = Math.min(bisectLeft(centres, depth), centres.length - 1);
  const above = Math.max(below - 1, 0);
  const [upper, lower, axis] = [rowLine(mesh, above), rowLine(mesh, below), axisLine(mesh)];
  const place = (line: LineReader, soil: CellValues) => edgePlace(line(soil), head, shape);

  function radius(soil: CellValues): number {
    const [near, far] = [place(upper, soil), place(lower, soil)];
    if (above === below || near === 0 || far === 0)
      return depth - centres[above]! < centres[below]! - depth ? near : far;
    const share = (depth - centres[above]!) / (centres[below]! - centres[above]!);
    return near + Math.min(Math.max(share, 0), 1) * (far - near);
  }
  return (soil) => ({ radius: radius(soil), wettedDepth: place(axis, soil) });
}

/** The cells of a line with their values of now; the next reading overwrites them. */
type LineReader = (soil: CellValues) => CellLine;

/** The cells of a row from the pot outward. */
function rowLine({ grid: { rEdges, cellAt }, rCell }: TensorMesh, j: number): LineReader {
  const columns = rEdges.length - 1;
  return lineReader(rCell, cellAt.subarray(j * columns, (j + 1) * columns), rEdges, "outward");
}

/** The cells below the pot on the axis. */
function axisLine({ grid: { rEdges, dEdges, cellAt }, dCell }: TensorMesh): LineReader {
  const columns = rEdges.length - 1;
  return lineReader(
    dCell,
    cellAt.filter((_, k) => k % columns === 0),
    dEdges,
    "down",
  );
}

/** The last unbroken run of cells; slivers joined to a neighbour count once. */
function lineReader(
  centre: Float64Array,
  numbers: Int32Array,
  edges: Float64Array,
  direction: CellLine["direction"],
): LineReader {
  const start = numbers.lastIndexOf(-1) + 1;
  const isLast = (cell: number, k: number) => k >= start && cell !== numbers[k + 1];
  const cells = numbers.filter(isLast);
  const line: CellLine = {
    x: Float64Array.from(cells, (cell) => centre[cell]!),
    end: edges.slice(1).filter((_, k) => isLast(numbers[k]!, k)),
    h: new Float64Array(cells.length),
    theta: new Float64Array(cells.length),
    direction,
  };
  return ({ h, theta }) => {
    for (let k = 0; k < cells.length; k++) {
      line.h[k] = h[cells[k]!]!;
      line.theta[k] = theta[cells[k]!]!;
    }
    return line;
  };
}
