import fc from "fast-check";
import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import type { Mesh } from "../../model/flow/mesh.ts";
import { meshKernel } from "../../model/flow/meshKernel.ts";
import { minimumDegreeOrder } from "../../model/flow/ordering.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";

const meshOf = (columns: number, rows: number) =>
  tensorMesh({ geometry: "planar", rEdges: evenEdges(0, 1, columns), dEdges: evenEdges(0, 1, rows) });

/** Row of cell i: `diagonal[i]`, and an entry for each of its faces; `ab[f]` stands in row a, column b. */
interface MeshMatrix {
  diagonal: Float64Array;
  ab: Float64Array;
  ba: Float64Array;
}

/** A matrix whose rows are dominated by their diagonal, as an implicit step's are. */
function dominantMatrix({ cellCount, faces }: Mesh, shares: readonly number[]): MeshMatrix {
  const [ab, ba] = [new Float64Array(faces.a.length), new Float64Array(faces.a.length)];
  const diagonal = new Float64Array(cellCount).fill(0.1);
  const share = (k: number) => shares[k % shares.length]!;
  faces.a.forEach((a, f) => {
    const b = faces.b[f]!;
    ab[f] = -share(2 * f);
    ba[f] = -share(2 * f + 1);
    diagonal[b]! += share(2 * f);
    diagonal[a]! += share(2 * f + 1);
  });
  return { diagonal, ab, ba };
}

/** The solver's factors of a matrix: of a stage of weight −1 that stores nothing. */
function factors(mesh: Mesh, { diagonal, ab, ba }: MeshMatrix, drop: number) {
  const { loops, cells, faces, addressOf } = meshKernel(mesh, minimumDegreeOrder(mesh, mesh.rCell), drop);
  cells.diagonal.set(diagonal);
  faces.ab.set(ab);
  faces.ba.set(ba);
  const isFactored = Boolean(loops.factor(-1, drop));
  return {
    isFactored,
    solve(rhs: Float64Array) {
      cells.step.set(rhs);
      loops.solve(addressOf("step"));
      return cells.step.slice();
    },
  };
}

function dense(mesh: Mesh, { diagonal, ab, ba }: MeshMatrix): Matrix {
  const full = Matrix.diag([...diagonal]);
  mesh.faces.a.forEach((a, f) => {
    const b = mesh.faces.b[f]!;
    full.set(a, b, full.get(a, b) + ab[f]!);
    full.set(b, a, full.get(b, a) + ba[f]!);
  });
  return full;
}

const anySystem = fc.record({
  columns: fc.integer({ min: 1, max: 8 }),
  rows: fc.integer({ min: 1, max: 8 }),
  shares: fc.array(fc.double({ min: 1e-6, max: 10, noNaN: true }), { minLength: 5, maxLength: 30 }),
});

describe("the sparse LU", () => {
  it("solves what a dense solver solves (ml-matrix), on any mesh", () => {
    fc.assert(
      fc.property(anySystem, ({ columns, rows, shares }) => {
        const mesh = meshOf(columns, rows);
        const matrix = dominantMatrix(mesh, shares);
        const rhs = Float64Array.from({ length: mesh.cellCount }, (_, i) => Math.sin(i + 1));
        const expected = solve(dense(mesh, matrix), Matrix.columnVector([...rhs])).to1DArray();
        const { isFactored, solve: solved } = factors(mesh, matrix, 0);
        expect(isFactored).toBe(true);
        const result = solved(rhs);
        const scale = Math.max(...expected.map(Math.abs));
        return expected.every((x, i) => Math.abs(x - result[i]!) <= 1e-10 * scale);
      }),
      { numRuns: 150 },
    );
  });

  it("tells of a pivot that is zero or not a number, and solves nothing", () => {
    const mesh = meshOf(3, 3);
    const matrix = dominantMatrix(mesh, [1]);
    matrix.diagonal.fill(0);
    matrix.ab.fill(0);
    expect(factors(mesh, matrix, 0).isFactored).toBe(false);
    matrix.diagonal.fill(Number.NaN);
    expect(factors(mesh, matrix, 0).isFactored).toBe(false);
  });

  it("keeps the error of dropped multipliers near the size it drops", () => {
    const mesh = meshOf(20, 20);
    const matrix = dominantMatrix(mesh, [1, 0.3, 2, 0.01]);
    const rhs = new Float64Array(mesh.cellCount).fill(1);
    const solution = (drop: number) => factors(mesh, matrix, drop).solve(rhs);
    const exact = solution(0);
    const dropped = solution(1e-4);
    const worst = Math.max(...exact.map((x, i) => Math.abs(dropped[i]! / x - 1)));
    console.info(`largest relative error with multipliers below 1e-4 dropped: ${worst.toExponential(1)}, allowed 1e-2`);
    expect(worst).toBeLessThan(1e-2);
    expect(worst).toBeGreaterThan(0);
  });
});

describe("the minimum-degree order", () => {
  it("takes every cell once, and fills in less than a row-by-row order would", () => {
    const mesh = meshOf(20, 20);
    const { order, later } = minimumDegreeOrder(mesh, mesh.rCell);
    expect([...order].sort((i, j) => i - j)).toEqual(Array.from({ length: 400 }, (_, i) => i));
    const entries = later.reduce((total, cells) => total + cells.length, 0);
    // Row by row each cell keeps about 20 later neighbours.
    expect(entries).toBeLessThan(400 * 20 * 0.5);
  });
});
