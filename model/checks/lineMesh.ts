import { type EdgeFace, edgeFacesOf, facesOf, type Mesh, type Side } from "../flow/mesh.ts";

/**
 * Flow along one line: down a column (1 cm² across), out from a cylinder (1 cm high) or out from a sphere. Gravity acts
 * in the column alone.
 */
export type LineShape = "column" | "cylinder" | "sphere";

/** A mesh along one line; `edges` are depths (column) or distances from the axis or centre, cm, increasing. */
export function lineMesh(shape: LineShape, edges: Float64Array): Mesh {
  const law = LAWS[shape];
  const count = edges.length - 1;
  const middle = Float64Array.from({ length: count }, (_, k) => (edges[k]! + edges[k + 1]!) / 2);
  const still = new Float64Array(count);
  const depth = (x: number) => (shape === "column" ? x : 0);
  const end = (cell: number, x: number, down: number): EdgeFace => ({
    cell,
    area: law.area(x),
    T: law.conductance(Math.min(x, middle[cell]!), Math.max(x, middle[cell]!)),
    depth: depth(x),
    drop: depth(middle[cell]! - x),
    down: shape === "column" ? down : 0,
  });
  const [first, last]: [Side, Side] = shape === "column" ? ["top", "bottom"] : ["inner", "outer"];
  const none = edgeFacesOf([]);
  return {
    cellCount: count,
    V: Float64Array.from(middle, (_, k) => law.volume(edges[k]!, edges[k + 1]!)),
    rCell: shape === "column" ? still : middle,
    dCell: shape === "column" ? middle : still,
    faces: facesOf(
      Array.from({ length: count - 1 }, (_, k) => ({
        a: k,
        b: k + 1,
        T: law.conductance(middle[k]!, middle[k + 1]!),
        drop: depth(middle[k + 1]! - middle[k]!),
      })),
    ),
    sides: {
      top: none,
      bottom: none,
      inner: none,
      outer: none,
      [first]: edgeFacesOf([end(0, edges[0]!, -1)]),
      [last]: edgeFacesOf([end(count - 1, edges[count]!, 1)]),
    },
  };
}

/** Volume between two places, area at a place, and area over distance between two places. */
const LAWS: Record<
  LineShape,
  { volume(p: number, q: number): number; area(x: number): number; conductance(p: number, q: number): number }
> = {
  column: {
    volume: (p, q) => q - p,
    area: () => 1,
    conductance: (p, q) => 1 / (q - p),
  },
  cylinder: {
    volume: (p, q) => Math.PI * (q * q - p * p),
    area: (r) => 2 * Math.PI * r,
    conductance: (p, q) => (2 * Math.PI) / Math.log(q / p),
  },
  sphere: {
    volume: (p, q) => ((4 * Math.PI) / 3) * (q ** 3 - p ** 3),
    area: (r) => 4 * Math.PI * r * r,
    conductance: (p, q) => (4 * Math.PI) / (1 / p - 1 / q),
  },
};
