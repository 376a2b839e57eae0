import { describe, expect, it } from "vitest";
import { densestCount, type Layout, layOutPots } from "../../model/bed/layout.ts";
import type { BedOutline, Place } from "../../model/bed/outline.ts";
import { expectClose } from "../support/close.ts";

const layout = (changes: Partial<Layout> = {}): Layout => ({
  grid: "square",
  spacing: 65,
  rowAngle: 0,
  edgeDistance: 65 / 3,
  ...changes,
});
const rectangle = (length: number, width: number): BedOutline => ({ shape: "rectangle", length, width });
const rounded = (places: Place[]) => places.map(({ x, y }) => [Number(x.toFixed(4)), Number(y.toFixed(4))]);

describe("pots in a bed", () => {
  // Along: floor((480 - 2 × 65/3) / 65) + 1 = 7; across: floor((120 - 2 × 65/3) / 65) + 1 = 2.
  it("of 1.2 by 4.8 m, 65 cm apart in squares, stand in two rows of seven with even room about them", () => {
    const along = [45, 110, 175, 240, 305, 370, 435];
    expect(rounded(layOutPots(rectangle(480, 120), layout()))).toEqual(
      [27.5, 92.5].flatMap((y) => along.map((x) => [x, y])),
    );
  });

  it("stand where they only just fit", () => {
    expect(layOutPots(rectangle(65 * 4, 65 * 2), layout({ edgeDistance: 32.5 }))).toHaveLength(8);
    expect(layOutPots(rectangle(65 * 4 - 0.001, 65 * 2 - 0.001), layout({ edgeDistance: 32.5 }))).toHaveLength(3);
  });

  // Three rows √3/2 × 65 = 56.29 cm apart take 2 × (65/3) + 112.58 = 155.92 cm; every other row has one pot less.
  it("in triangles stand nearer row to row, with every other row between the pots of the one before", () => {
    const triangular = layout({ grid: "triangular" });
    const inner = 3 * 65 + 20;
    const places = layOutPots(rectangle(inner + 130 / 3, 156), triangular);
    expect(places).toHaveLength(4 + 3 + 4);
    const rows = [...new Set(places.map(({ y }) => y))];
    expectClose(rows[1]! - rows[0]!, 56.2917, { tolerance: 1e-4, unit: "cm", what: "row to row" });
    expect(layOutPots(rectangle(inner + 130 / 3, 155.9), triangular)).toHaveLength(4 + 3);
  });

  // A square of 65 cm has a half diagonal of 45.96 cm: with 65/3 more, a circle of 67.63 cm radius holds its four corners.
  it("in a circle stand about its middle", () => {
    expect(layOutPots({ shape: "circle", diameter: 135.3 }, layout())).toHaveLength(4);
    expect(layOutPots({ shape: "circle", diameter: 135.2 }, layout())).toHaveLength(2);
    const places = layOutPots({ shape: "circle", diameter: 135.3 }, layout());
    expectClose(places.reduce((sum, { x }) => sum + x, 0) / 4, 67.65, { tolerance: 1e-6, unit: "cm", what: "middle" });
  });

  it("stand in both arms of a hook, and not in what it leaves out", () => {
    const points = [
      [0, 0],
      [300, 0],
      [300, 60],
      [60, 60],
      [60, 300],
      [0, 300],
    ].map(([x, y]) => ({ x: x!, y: y! }));
    const places = layOutPots({ shape: "polygon", points }, layout({ spacing: 60, edgeDistance: 30 }));
    expect(rounded(places)).toEqual([
      ...[30, 90, 150, 210, 270].map((x) => [x, 30]),
      ...[90, 150, 210, 270].map((y) => [30, y]),
    ]);
  });

  it("turn with the rows' angle", () => {
    const turned = rounded(layOutPots(rectangle(480, 120), layout({ rowAngle: 90 })));
    // Rows now run across: 7 rows of 2.
    expect(turned).toHaveLength(14);
    expect(new Set(turned.map(([x]) => x)).size).toBe(7);
  });

  it("find no place in a bed too small for one", () => {
    expect(layOutPots(rectangle(43, 200), layout())).toEqual([]);
    expect(layOutPots({ shape: "circle", diameter: 43 }, layout())).toEqual([]);
  });

  it("in a wide bed of triangles are nearly as many as the densest packing has", () => {
    // floor(1000 / 17.32) + 1 = 58 rows of 51 and 50 pots in turn; at most (1000 × 1000 + 4000 × 20/√3 + π 20²/3) / (20² √3/2).
    expect(densestCount(rectangle(1000, 1000), 20)).toBe(3021);
    const places = layOutPots(rectangle(1000, 1000), layout({ grid: "triangular", spacing: 20, edgeDistance: 0 }));
    expect(places).toHaveLength(29 * 51 + 29 * 50);
  });
});
