import { range } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type CellLine, edgePlace, frontShape } from "../../model/flow/front.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";
import { numRuns } from "../support/deep.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";

const START = -1000;
const EDGE = -330;

/**
 * A front that moves without change of shape, v (θ − θ₀) = −dφ/dx, put on cells by their mean water content, as a finite
 * volume has it: the place of every head is known, x(h) = x(dry) − ∫ K dh / [v (θ − θ₀)].
 */
function movingFront(soilName: string, speed: number, cellSize: number, shift: number) {
  const soil = vanGenuchten(classMean(soilName));
  const heads = range(0, 4001).map((k) => -Math.exp(Math.log(999.9) + ((Math.log(0.05) - Math.log(999.9)) * k) / 4000));
  const theta0 = soil.theta(START);
  let x = 0;
  const profile = heads.map((h, k) => {
    if (k > 0) {
      const middle = (h + heads[k - 1]!) / 2;
      x -= (soil.K(middle) * (h - heads[k - 1]!)) / (speed * (soil.theta(middle) - theta0));
    }
    return { h, x };
  });
  const edge = profile.find(({ h }) => h > EDGE)!.x;
  const at = (place: number) => {
    if (place >= 0) return theta0;
    const next = profile.findIndex((point) => point.x <= place);
    return next < 0 ? soil.theta(-0.05) : soil.theta(profile[next]!.h);
  };
  // 24 cells, the front somewhere in the twelfth.
  const begin = -(12 + shift) * cellSize;
  const theta = Float64Array.from(range(24), (k) => {
    const places = range(200).map((s) => begin + (k + (s + 0.5) / 200) * cellSize);
    return places.reduce((sum, place) => sum + at(place), 0) / 200;
  });
  const line: CellLine = {
    x: Float64Array.from(range(24), (k) => begin + (k + 0.5) * cellSize),
    end: Float64Array.from(range(24), (k) => begin + (k + 1) * cellSize),
    h: theta.map((value) => Math.max(soil.hAtTheta(value), START)),
    theta,
    direction: "down",
  };
  return { line, edge, shape: frontShape(soil, START) };
}

describe("the place of the front", () => {
  for (const [soil, speed] of [
    ["sand", 10],
    ["sand", 3],
    ["loam", 10],
    ["loam", 3],
  ] as const)
    it(`is found to a tenth of a cell in ${soil} moving at ${speed} cm/day, wherever it stands in its cell`, () => {
      let worst = 0;
      for (const shift of range(0, 1, 0.1)) {
        const { line, edge, shape } = movingFront(soil, speed, 2, shift);
        worst = Math.max(worst, Math.abs(edgePlace(line, EDGE, shape) - edge));
      }
      expectClose(worst, 0, { tolerance: 0.2, unit: "cm", what: `${soil}, worst error of the front in cells of 2 cm` });
    });

  it("is nowhere when no cell is wet, and at the line's end when the last is as wet as the others", () => {
    const { line, shape } = movingFront("loam", 3, 2, 0);
    expect(edgePlace({ ...line, h: line.h.map(() => -900) }, EDGE, shape)).toBe(0);
    expect(edgePlace({ ...line, h: line.h.map(() => -100) }, EDGE, shape)).toBe(line.end.at(-1));
  });

  it("is found by plain interpolation where the crossing is gradual", () => {
    const x = Float64Array.from(range(20), (k) => k + 0.5);
    const h = x.map((place) => -100 * Math.exp(place / 10));
    const soil = vanGenuchten(classMean("loam"));
    const line: CellLine = { x, end: x.map((place) => place + 0.5), h, theta: h.map(soil.theta), direction: "outward" };
    const place = edgePlace(line, EDGE, frontShape(soil, START));
    expectClose(place, 10 * Math.log(3.3), { tolerance: 1e-9, unit: "cm", what: "place of −330 cm" });
  });

  it("is found between heads above and below 0 where the edge is saturation", () => {
    const line: CellLine = {
      x: Float64Array.of(1, 2, 3),
      end: Float64Array.of(1.5, 2.5, 3.5),
      h: Float64Array.of(4, 0.003, -0.001),
      theta: Float64Array.of(0.4, 0.4, 0.4),
      direction: "down",
    };
    expectClose(edgePlace(line, 0, undefined), 2.75, { tolerance: 1e-12, unit: "cm", what: "place of 0 cm" });
  });

  it("has no shape in soil that starts so wet that it takes up no water", () => {
    expect(frontShape(vanGenuchten(classMean("clay")), 0)).toBeUndefined();
    expect(frontShape(vanGenuchten({ ...classMean("clay"), alpha: 1e-5, n: 5 }), -10)).toBeUndefined();
    expect(frontShape(vanGenuchten(classMean("clay")), -10)).toBeDefined();
  });

  it("is a number in any soil that starts near 1 kPa, for any edge", () => {
    const head = (most: number) =>
      fc.double({ min: Math.log(0.1), max: Math.log(most), noNaN: true }).map((x) => -Math.exp(x));
    const soils = fc.record({
      alpha: fc.double({ min: 1e-5, max: 0.2, noNaN: true }),
      n: fc.double({ min: 1.05, max: 6, noNaN: true }),
      Ks: fc.double({ min: 0.1, max: 500, noNaN: true }),
    });
    fc.assert(
      fc.property(soils, head(30), fc.oneof(fc.constant(0), head(1000)), (own, startHead, edge) => {
        const soil = { ...classMean("clay"), ...own };
        const edges = [{ head: edge, depth: 10 }];
        const run = simulateToEnd(cylinderProblem({ soil, startHead, edges, days: [0.5], accuracy: "live" }));
        const { radius, wettedDepth } = run.history.edges[0]!;
        return [...radius, ...wettedDepth].every((place) => place >= 0);
      }),
      { numRuns: numRuns(15, 150) },
    );
  });
});
