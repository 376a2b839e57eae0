import { describe, expect, it } from "vitest";
import { uniformityCoefficient } from "../../model/line/evenness.ts";
import { lossesTo } from "../../model/line/losses.ts";
import type { Line } from "../../model/line/network.ts";
import { headLoss } from "../../model/line/pipe.ts";
import { profileTo } from "../../model/line/profile.ts";
import { solveLine } from "../../model/line/solveLine.ts";
import { kinematicViscosity } from "../../model/line/water.ts";
import { expectClose } from "../support/close.ts";
import { comb, tube } from "../support/lines.ts";

/** Down to 10 cm below the tank's outlet, through a dip and over a hump, then up into the pot. */
const winding: Line = {
  pieces: [
    tube({
      name: "main",
      kind: "main",
      length: 6,
      innerDiameter: 0.013,
      minorLoss: 2,
      height: 0.1,
      via: [
        { along: 1, height: -0.3 },
        { along: 2, height: 0.2 },
        { along: 3, height: 0.2 },
        { along: 5, height: -0.1 },
      ],
      outlet: null,
    }),
    tube({ parent: 0, height: 0.15 }),
  ],
  celsius: 20,
};

const solved = (line: Line, tankHead: number, pots = 1) => {
  const flows = solveLine(line, {
    tankHead,
    potHeads: new Array(pots).fill(Number.NEGATIVE_INFINITY),
    closed: new Array(pots).fill(false),
  });
  if (flows.kind === "trouble") throw new Error(flows.where);
  return flows;
};

describe("losses on the way to a pot", () => {
  it("are those of its pieces one by one, and the head left is the height of its end", () => {
    const flows = solved(comb(3), 1, 3);
    const { rows, atOutlet, left } = lossesTo(comb(3), flows, 5, 1);
    expect(rows.map(({ name, kind }) => `${name}, ${kind}`)).toEqual([
      "main 0, main",
      "main 1, main",
      "main 2, main",
      "tube 2, tube",
    ]);
    const known = headLoss(comb(3).pieces[0]!, flows.flow[0]!, kinematicViscosity(20)).loss;
    expectClose(rows[0]!.friction, known, { tolerance: 1e-15, unit: "m", what: "friction in the first main" });
    expect(atOutlet).toBeGreaterThan(0);
    expectClose(left, 0, { tolerance: 1e-10, unit: "m", what: "head left" });
  });

  it("tell friction from fittings", () => {
    const { rows } = lossesTo(winding, solved(winding, 1), 1, 1);
    expect(rows[0]!.fittings).toBeGreaterThan(0);
    expect(rows[1]!.fittings).toBe(0);
  });
});

describe("the profile of the way to a pot", () => {
  const profile = (tankHead: number) =>
    profileTo(winding, solved(winding, tankHead), 1, { tankHead, outletHeight: 0.3 });

  it("goes through every place, from the tank's outlet to the tube's end", () => {
    const { points } = profile(1);
    expect(points.map(({ along, height }) => [along, height])).toEqual([
      [0, 0.3],
      [1, -0.3],
      [2, 0.2],
      [3, 0.2],
      [5, -0.1],
      [6, 0.1],
      [8, 0.15],
    ]);
    expectClose(points[0]!.pressureHead, 0.7, { tolerance: 1e-15, unit: "m", what: "pressure at the outlet" });
    expectClose(points.at(-1)!.pressureHead, 0, { tolerance: 1e-9, unit: "m", what: "pressure at the open end" });
  });

  it("flags low places and high ones with how deep and how high they are", () => {
    const { sags, highPoints } = profile(1);
    expect(sags.map(({ along, height }) => [along, height])).toEqual([
      [1, -0.3],
      [5, -0.1],
    ]);
    expectClose(sags[0]!.depth, 0.5, { tolerance: 1e-12, unit: "m", what: "first sag" });
    expectClose(sags[1]!.depth, 0.25, { tolerance: 1e-12, unit: "m", what: "second sag" });
    expect(highPoints.map(({ along, height }) => [along, height])).toEqual([[2, 0.2]]);
    expectClose(highPoints[0]!.depth, 0.3, { tolerance: 1e-12, unit: "m", what: "high place" });
  });

  it("measures a dip between two lower ones by its own brim", () => {
    const heights = [-0.5, 0, -0.1, 0.05, -0.6];
    const via = heights.map((height, i) => ({ along: i + 1, height }));
    const wavy: Line = { pieces: [tube({ length: 6, height: 0.5, via })], celsius: 20 };
    const { sags } = profileTo(wavy, solved(wavy, 1), 0, { tankHead: 1, outletHeight: 0.5 });
    const depths = sags.map(({ depth }) => depth);
    [0.55, 0.1, 1.1].forEach((depth, i) => {
      expectClose(depths[i]!, depth, { tolerance: 1e-12, unit: "m", what: `sag ${i}` });
    });
  });

  it("flags where water is under suction, as behind a hump that stands above what friction has left", () => {
    expect(profile(1).underSuction).toEqual([]);
    const siphon: Line = {
      pieces: [tube({ length: 10, height: -0.5, via: [{ along: 8, height: 0.4 }] })],
      celsius: 20,
    };
    const flows = solved(siphon, 0.5);
    const { underSuction } = profileTo(siphon, flows, 0, { tankHead: 0.5, outletHeight: 0.3 });
    expect(underSuction.map(({ along }) => along)).toEqual([8]);
  });

  it("of water at rest has the pressure of its depth everywhere", () => {
    const flows = solveLine(winding, { tankHead: 1, potHeads: [0], closed: [true] });
    if (flows.kind === "trouble") throw new Error(flows.where);
    for (const { height, pressureHead } of profileTo(winding, flows, 1, { tankHead: 1, outletHeight: 0.3 }).points)
      expectClose(pressureHead, 1 - height, { tolerance: 1e-15, unit: "m", what: "pressure" });
  });
});

describe("evenness", () => {
  it("is Christiansen's coefficient, reckoned by hand", () => {
    expectClose(uniformityCoefficient([1, 2, 3, 4]), 60, { tolerance: 1e-12, unit: "%", what: "CU" });
    expectClose(uniformityCoefficient(new Float64Array([2, 2, 2])), 100, { tolerance: 0, unit: "%", what: "CU" });
    expectClose(uniformityCoefficient([0, 0, 0, 4]), -50, {
      tolerance: 1e-12,
      unit: "%",
      what: "CU of one that gets all",
    });
  });

  it("is not a number where no water was given", () => {
    expect(uniformityCoefficient([0, 0])).toBeNaN();
  });
});
