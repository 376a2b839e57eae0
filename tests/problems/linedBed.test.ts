import { range, sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { layOutPots } from "../../model/bed/layout.ts";
import type { Place } from "../../model/bed/outline.ts";
import { turnedPlace } from "../../model/bed/turning.ts";
import { networkOf } from "../../model/line/network.ts";
import { type BedLine, bedLine } from "../../model/problems/linedBed.ts";
import { expectClose } from "../support/close.ts";
import { plan } from "../support/livingPlan.ts";

/** Rows 70 cm apart of pots 70 cm apart, the first one at a corner. */
const gridOf = (rows: number, inRow: number): Place[] =>
  range(rows).flatMap((row) => range(inRow).map((k) => ({ x: 70 * k, y: 70 * row })));

const piecesOf = ({ line }: BedLine, kind: string) => line.pieces.filter((piece) => piece.kind === kind);
/** Metres. */
const lengthOf = (laid: BedLine, kind: string) => sum(piecesOf(laid, kind), ({ length }) => length);
const metres = { tolerance: 1e-9, unit: "m" };
const outline = ({ line }: BedLine) => line.pieces.map(({ name, parent, kind }) => ({ name, parent, kind }));

describe("the line of a bed", () => {
  const laid = bedLine(plan(), gridOf(3, 5));

  it("has one tube for each pot, whose water leaves there, and no other outlet", () => {
    const outlets = laid.line.pieces.filter(({ outlet }) => outlet !== null);
    expect(outlets).toEqual(piecesOf(laid, "tube"));
    expect(outlets.map(({ outlet }) => outlet!.pot).sort((a, b) => a - b)).toEqual(range(15));
  });

  it("is a tree from the tank: each piece comes after the one that it goes on from", () => {
    expect(() => networkOf(laid.line)).not.toThrow();
    expect(laid.line.pieces.filter(({ parent }) => parent === null)).toHaveLength(1);
    laid.line.pieces.forEach(({ parent }, k) => {
      expect(parent ?? -1).toBeLessThan(k);
    });
  });

  it("has row pipes from the first pot to the last of each row, and a cross pipe from row to row", () => {
    expectClose(lengthOf(laid, "row pipe"), 3 * 4 * 0.7, { ...metres, what: "row pipes" });
    expectClose(lengthOf(laid, "cross pipe"), 2 * 0.7, { ...metres, what: "cross pipes" });
    expectClose(lengthOf(laid, "main"), 5, { ...metres, what: "main" });
    expectClose(lengthOf(laid, "tube"), 15 * 0.4, { ...metres, what: "tubes" });
    expect(laid.rows).toEqual([range(0, 5), range(5, 10), range(10, 15)]);
  });

  it("is as long as its way over the bed, but for the tubes' own length and what stands upright", () => {
    const levels = ["main", "cross pipe", "row pipe"];
    laid.line.pieces.forEach(({ kind, length }, k) => {
      const { from, to } = laid.ways[k]!;
      if (levels.includes(kind))
        expectClose(length, Math.hypot(to.x - from.x, to.y - from.y) / 100, { ...metres, what: `piece ${k}` });
    });
  });

  it("goes where the pots stand: each tube's way ends at its pot, and each way begins where the one before it ends", () => {
    const pots = gridOf(3, 5);
    laid.line.pieces.forEach(({ outlet, parent }, k) => {
      if (outlet) expect(laid.ways[k]!.to).toEqual(pots[outlet.pot]);
      if (parent !== null) expect(laid.ways[k]!.from).toEqual(laid.ways[parent]!.to);
    });
  });

  it("has each kind of pipe with the bore that the plan gives it, cross pipes as the main", () => {
    const line = { main: { bore: 20 }, rowPipe: { bore: 12 }, tube: { bore: 5 } };
    const bored = bedLine(plan({ line }), gridOf(2, 2));
    const bores = (kind: string) => new Set(piecesOf(bored, kind).map(({ innerDiameter }) => innerDiameter));
    for (const [kind, bore] of [
      ["main", 0.02],
      ["riser", 0.02],
      ["cross pipe", 0.02],
      ["row pipe", 0.012],
      ["tube", 0.005],
    ] as const)
      expect(bores(kind)).toEqual(new Set([bore]));
  });

  it("takes pots in whatever order they come", () => {
    const pots = gridOf(3, 5);
    const shuffled = pots.map((_, k) => pots[(7 * k + 3) % pots.length]!);
    const other = bedLine(plan(), shuffled);
    for (const kind of ["main", "riser", "cross pipe", "row pipe", "tube"])
      expectClose(lengthOf(other, kind), lengthOf(laid, kind), { ...metres, what: kind });
    expect(other.rows.map((row) => row.map((pot) => shuffled[pot]))).toEqual(
      laid.rows.map((row) => row.map((pot) => pots[pot])),
    );
  });

  it.each([-75, -30, 1, 45, 90])("is the same in a bed turned by %d degrees, and turned with it", (rowAngle) => {
    const pots = gridOf(3, 5);
    const turn = (place: Place) => turnedPlace(place, rowAngle, { x: 0, y: 0 });
    const turned = bedLine(plan({ rowAngle }), pots.map(turn));
    expect(outline(turned)).toEqual(outline(laid));
    turned.line.pieces.forEach(({ length, height }, k) => {
      expectClose(length, laid.line.pieces[k]!.length, { ...metres, what: `length of piece ${k}` });
      expect(height).toBe(laid.line.pieces[k]!.height);
      const meant = turn(laid.ways[k]!.to);
      const off = Math.hypot(turned.ways[k]!.to.x - meant.x, turned.ways[k]!.to.y - meant.y);
      expectClose(off, 0, { tolerance: 1e-6, unit: "cm", what: `end of piece ${k}` });
    });
  });

  it("of pots moved by hand has longer tubes to those that stand aside, and leaves the others theirs", () => {
    for (const aside of [-12, 12]) {
      const pots = gridOf(2, 5).map((pot, k) => (k === 2 ? { x: pot.x, y: pot.y + aside } : pot));
      const moved = bedLine(plan(), pots);
      for (const { outlet, length } of piecesOf(moved, "tube"))
        expectClose(length, outlet!.pot === 2 ? 0.52 : 0.4, { ...metres, what: `tube of pot ${outlet!.pot + 1}` });
      expect(moved.rows).toEqual([range(0, 5), range(5, 10)]);
    }
  });

  it("to one pot is a main, a riser and a tube", () => {
    const single = bedLine(plan(), [{ x: 30, y: 40 }]);
    expect(outline(single)).toEqual([
      { name: "main", parent: null, kind: "main" },
      { name: "riser", parent: 0, kind: "riser" },
      { name: "tube of pot 1", parent: 1, kind: "tube" },
    ]);
  });

  it("has on a triangular grid rows that begin half a spacing later, joined where the first pots of all rows stand", () => {
    const apart = 70 * Math.sqrt(0.75);
    const pots = range(3).flatMap((row) => range(4).map((k) => ({ x: 70 * k + (row % 2) * 35, y: apart * row })));
    const triangular = bedLine(plan({ potGrid: "triangular" }), pots);
    expect(triangular.rows.map((row) => row.length)).toEqual([4, 4, 4]);
    expectClose(lengthOf(triangular, "row pipe"), (3 * 3 * 70 + 35) / 100, { ...metres, what: "row pipes" });
    expectClose(lengthOf(triangular, "cross pipe"), (2 * apart) / 100, { ...metres, what: "cross pipes" });
    expectClose(lengthOf(triangular, "tube"), 12 * 0.4, { ...metres, what: "tubes" });
  });

  it("feeds every pot that a plan lays out, on both grids and turned", () => {
    for (const potGrid of ["square", "triangular"])
      for (const rowAngle of [0, 17]) {
        const bed = plan({ potGrid, rowAngle, bed: { shape: "circle", diameter: 5 } });
        const pots = layOutPots(bed.bed.outline, bed.bed);
        expect(pots.length).toBeGreaterThan(20);
        const whole = bedLine(bed, pots);
        expect(piecesOf(whole, "tube")).toHaveLength(pots.length);
        expectClose(lengthOf(whole, "tube"), 0.4 * pots.length, { ...metres, tolerance: 1e-6, what: "tubes" });
      }
  });
});

describe("heights of the line", () => {
  const one = [{ x: 0, y: 0 }];
  const heights = (line: object, more: object = {}) =>
    bedLine(plan({ line, ...more }), one).line.pieces.map(({ kind, height, length, via }) => ({
      kind,
      height,
      length,
      via,
    }));

  it("go from the tank down to the soil, up to the rows' pipes and to the tubes' ends at the pots' rims", () => {
    const [main, riser, tube] = heights({ rowPipe: { height: 30 } });
    expect([main!.height, riser!.height, tube!.height]).toEqual([0, 0.3, 0.02]);
    expect(riser!.length).toBe(0.3);
    expect(main!.via).toEqual([]);
  });

  it("are those of the tubes' ends that a plan tells, and of a rim below the soil", () => {
    expect(heights({ tube: { endHeight: 12 } }).at(-1)!.height).toBeCloseTo(0.12, 12);
    const sunk = { pot: { shape: "cylinder", diameter: 20, height: 22, rimAboveSoil: -3 } };
    expect(heights({}, sunk).at(-1)!.height).toBeCloseTo(-0.03, 12);
  });

  it("have no riser where the rows' pipes lie on the soil, and one down where they lie in it", () => {
    expect(heights({ rowPipe: { height: 0 } }).map(({ kind }) => kind)).toEqual(["main", "tube"]);
    expect(heights({ rowPipe: { height: -10 } })[1]).toMatchObject({ kind: "riser", height: -0.1, length: 0.1 });
  });

  it("of a main that goes up and down have its highest place first where that is above the tank's outlet, else its lowest", () => {
    const way = (highest: number, lowest: number) => ({
      main: { length: 9, way: { kind: "humped", highest, lowest } },
    });
    expect(heights(way(80, -20))[0]!.via).toEqual([
      { along: 3, height: 0.8 },
      { along: 6, height: -0.2 },
    ]);
    expect(heights(way(40, -20))[0]!.via).toEqual([
      { along: 3, height: -0.2 },
      { along: 6, height: 0.4 },
    ]);
  });

  it("leave emitters their law: the flow under a metre of water, in m³/s, and the exponent", () => {
    const end = { kind: "emitter", flowAtOneMetre: 3.6, exponent: 0.6 };
    const { outlet } = bedLine(plan({ line: { tube: { end } } }), one).line.pieces.at(-1)!;
    expect(outlet).toEqual({ pot: 0, emitter: { coefficient: 1e-6, exponent: 0.6 } });
  });
});
