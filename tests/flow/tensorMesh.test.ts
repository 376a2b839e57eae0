import { sum } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { cellCentres, gradedEdges } from "../../model/flow/gridSpacing.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { wallAreaBetween } from "../../model/pot/outerSurface.ts";
import type { PotShape } from "../../model/pot/pot.ts";
import { outlineOf } from "../../model/pot/potOutline.ts";
import { expectClose } from "../support/close.ts";
import { outerVolume } from "../support/outerVolume.ts";
import { cylinder, jar, tapered } from "../support/pots.ts";

const REGION = { radius: 40, depth: 50 };

function meshOf(shape: PotShape, columns: number, rows: number) {
  return tensorMesh({
    geometry: "axisymmetric",
    rEdges: evenEdges(0, REGION.radius, columns),
    dEdges: evenEdges(0, REGION.depth, rows),
    outline: outlineOf(shape),
  });
}

const anyGrid = fc.record({ columns: fc.integer({ min: 9, max: 60 }), rows: fc.integer({ min: 9, max: 60 }) });
const shapes: Record<string, PotShape> = {
  cylinder,
  tapered,
  jar,
  "jar with its rim above the soil": { ...jar, rimDepth: -3 },
  "jar sunk below the surface": { ...jar, rimDepth: 5, bellyDepth: 14, outerDepth: 26 },
};

describe("a tensor mesh with a pot cut out", () => {
  for (const [name, shape] of Object.entries(shapes)) {
    const outline = outlineOf(shape);
    const inSoil = { from: Math.max(shape.rimDepth, 0), to: shape.outerDepth };

    it(`has the true wall area of a ${name} on any grid, within 0.5 %`, () => {
      let worst = 0;
      const expected = wallAreaBetween(outline, inSoil.from, inSoil.to);
      fc.assert(
        fc.property(anyGrid, ({ columns, rows }) => {
          const area = sum(meshOf(shape, columns, rows).wall.area);
          worst = Math.max(worst, Math.abs(area / expected - 1));
          return worst < 0.005;
        }),
        { numRuns: 60 },
      );
      console.info(`${name}: wall area off by at most ${(100 * worst).toExponential(1)} %, allowed 0.5 %`);
    });

    it(`leaves the true volume of soil about a ${name} on any grid, within 0.5 % of the pot`, () => {
      const whole = Math.PI * REGION.radius ** 2 * REGION.depth;
      const pot = outerVolume(outline.map(({ r, d }) => ({ r, d: Math.max(d, 0) })));
      fc.assert(
        fc.property(anyGrid, ({ columns, rows }) => {
          const { V } = meshOf(shape, columns, rows);
          expect(V.every((volume) => volume > 0)).toBe(true);
          return Math.abs(whole - sum(V) - pot) < 0.005 * pot;
        }),
        { numRuns: 60 },
      );
    });

    it(`joins every cell about a ${name} to another, with conductances above zero`, () => {
      fc.assert(
        fc.property(anyGrid, ({ columns, rows }) => {
          const { cellCount, faces, wall } = meshOf(shape, columns, rows);
          const joined = new Set([...faces.a, ...faces.b]);
          return joined.size === cellCount && faces.T.every((T) => T > 0) && wall.T.every((T) => T > 0);
        }),
        { numRuns: 40 },
      );
    });
  }

  it("is the plain ring mesh where the pot's wall lies on grid lines", () => {
    const { V, rCell, dCell, grid } = meshOf(cylinder, 8, 5);
    // The pot takes two columns of 5 cm and two rows of 10 cm.
    expect(grid.cellAt.filter((cell) => cell < 0)).toHaveLength(4);
    expectClose(V[0]!, Math.PI * (15 ** 2 - 10 ** 2) * 10, { tolerance: 1e-9, unit: "cm³", what: "first ring" });
    // At the wall the centre lies a sixteenth of the next cell's 5 cm nearer to it than the middle.
    expect([rCell[0], dCell[0]]).toEqual([12.5 - 5 / 16, 5]);
  });

  it("lets water pass between two rings only where the pot leaves their common face open", () => {
    // Rows of 50/9 cm: the base at 20 cm leaves 2.22 cm of the fourth row open, columns of 4 cm lie inside the pot.
    const { grid, faces, rCell } = meshOf(cylinder, 10, 9);
    const [inside, next] = [grid.cellAt[3 * 10]!, grid.cellAt[3 * 10 + 1]!];
    const face = faces.a.findIndex((a, f) => a === inside && faces.b[f] === next);
    const open = grid.dEdges[4]! - 20;
    const expected = (2 * Math.PI * open) / Math.log(rCell[next]! / rCell[inside]!);
    expectClose(faces.T[face]!, expected, { tolerance: 1e-9, relative: true, unit: "cm", what: "T under the base" });
  });

  it("closes the ground above a sunk pot's lid", () => {
    const sunk = shapes["jar sunk below the surface"]!;
    const { grid, faces, wall } = meshOf(sunk, 40, 50);
    const aboveLid = grid.cellAt[4 * 40]!;
    const below = faces.a.findIndex((a, f) => a === aboveLid && faces.drop[f]! > 0);
    expect(below).toBe(-1);
    expect(Math.min(...wall.upper)).toBeCloseTo(sunk.rimDepth, 9);
  });
});

describe("graded edges", () => {
  it("start and end where asked, the finest cell at the asked end and no larger than asked", () => {
    const edges = gradedEdges(10, 60, "from", 0.5, 1.2, 8);
    const sizes = edges.slice(1).map((edge, k) => edge - edges[k]!);
    expect([edges[0], edges.at(-1)]).toEqual([10, 60]);
    expect(sizes[0]).toBeLessThanOrEqual(0.5);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(8);
    expect(sizes.every((size, k) => k === 0 || size >= sizes[k - 1]! * (1 - 1e-9))).toBe(true);
    expect(gradedEdges(0, 10, "to", 0.5, 1.2, 8).at(-2)).toBeGreaterThanOrEqual(9.5);
  });
});

describe("centres of cells", () => {
  it("are the middles of even cells", () => {
    expect([...cellCentres(evenEdges(2, 10, 4))]).toEqual([3, 5, 7, 9]);
  });

  it("lie a sixteenth of the neighbours' difference in size nearer to the smaller neighbour", () => {
    expect([...cellCentres(Float64Array.of(0, 1, 3, 7, 15))]).toEqual([0.5, 2 - 3 / 16, 5 - 6 / 16, 11]);
  });

  it("lie nearer to a wall, before which there is no cell", () => {
    expect([...cellCentres(Float64Array.of(0, 1, 3, 7, 15), [3])]).toEqual([0.5, 2 - 3 / 16, 5 - 8 / 16, 11]);
  });
});
