import { describe, expect, it } from "vitest";
import { sampleField, sampleRows } from "../../model/flow/field.ts";
import type { GridLines } from "../../model/flow/run.ts";
import { expectClose } from "../support/close.ts";

/** Cells of uneven width over 0–10 by 0–8 cm; the first one lies inside the pot. */
const grid: GridLines = {
  rEdges: Float64Array.of(0, 1, 3, 6, 10),
  dEdges: Float64Array.of(0, 2, 5, 8),
  rCentre: Float64Array.of(0.5, 1.9, 4.4, 8),
  dCentre: Float64Array.of(1, 3.4, 6.5),
  cellAt: Int32Array.of(-1, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10),
  V: new Float64Array(11).fill(1),
};

/** The field r + 10 d at the centres of the cells. */
const plane = new Float64Array(11);
for (const [j, d] of grid.dCentre.entries())
  for (const [i, r] of grid.rCentre.entries()) {
    const cell = grid.cellAt[j * 4 + i]!;
    if (cell >= 0) plane[cell] = r + 10 * d;
  }

describe("sampling a field", () => {
  it("gives a field that is linear in r and d exactly between the centres of cells", () => {
    for (const [r, d] of [
      [2, 1],
      [5.1, 3.9],
      [7.9, 6.4],
      [3, 5],
    ] as const)
      expectClose(sampleField(grid, plane, r, d), r + 10 * d, { tolerance: 1e-12, what: `at ${r}, ${d}` });
  });

  it("takes the nearest cells outside the region", () => {
    expectClose(sampleField(grid, plane, -5, 4), sampleField(grid, plane, 0.5, 4), { tolerance: 1e-12, what: "left" });
    expectClose(sampleField(grid, plane, 99, 99), 8 + 65, { tolerance: 1e-12, what: "far corner" });
  });

  it("leaves cells inside the pot out", () => {
    expectClose(sampleField(grid, plane, 1.8, 1), 1.9 + 10, { tolerance: 1e-12, what: "beside the pot" });
    expect(sampleField(grid, plane, 0.2, 0.2)).toBeNaN();
  });

  it("gives many points row by row, each as it is by itself, in every direction", () => {
    const edges = Float64Array.of(0, 0.5, 1.2);
    const cells = grid.cellAt.map((cell) => (cell < 0 ? cell : cell + 11));
    const sectored = { ...grid, sectors: { edges, reach: 10 }, cellAt: Int32Array.of(...grid.cellAt, ...cells) };
    const field = Float64Array.of(...plane, ...plane.map((value) => value + 100));
    const [r, d] = [
      [-1, 0.2, 1.8, 3, 12],
      [0.3, 2, 6.5, 9],
    ];
    for (const angle of [0, 0.55, 1.1]) {
      const alone = d.flatMap((depth) => r.map((radius) => sampleField(sectored, field, radius, depth, angle)));
      expect(sampleRows(sectored, field, r, d, angle)).toEqual(alone);
    }
    const beside = sampleField(sectored, field, 5.1, 3.9, 0.25);
    expectClose(beside, 5.1 + 39, { tolerance: 1e-12, what: "first direction" });
    const between = sampleField(sectored, field, 5.1, 3.9, 0.55);
    expectClose(between, 5.1 + 39 + 50, { tolerance: 1e-12, what: "half way to the second" });
    expectClose(sampleField(sectored, field, 5.1, 3.9, 1.2), 5.1 + 39 + 100, { tolerance: 1e-12, what: "second" });
  });
});
