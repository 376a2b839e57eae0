import { describe, expect, it } from "vitest";
import type { Line, Piece } from "../../model/line/network.ts";
import { flowUnder } from "../../model/line/pipe.ts";
import type { Flows } from "../../model/line/solveFlows.ts";
import { type LineState, solveLine } from "../../model/line/solveLine.ts";
import { kinematicViscosity } from "../../model/line/water.ts";
import { expectClose } from "../support/close.ts";
import { comb, tube } from "../support/lines.ts";

const nu = kinematicViscosity(20);

const under = (pots: number, changes: Partial<LineState> = {}): LineState => ({
  tankHead: 1,
  potHeads: new Array(pots).fill(Number.NEGATIVE_INFINITY),
  closed: new Array(pots).fill(false),
  ...changes,
});

function solved(line: Line, state: LineState): Flows {
  const flows = solveLine(line, state);
  if (flows.kind === "trouble") throw new Error(`${flows.where}: ${flows.largestResidual} m`);
  return flows;
}

const single = (changes: Partial<Piece> = {}): Line => ({ pieces: [tube(changes)], celsius: 20 });

describe("a line of one pipe", () => {
  it("flows by the formula, its velocity head lost at its end, laminar and turbulent", () => {
    for (const tankHead of [0.01, 0.3, 3]) {
      for (const innerDiameter of [0.004, 0.013]) {
        const [Q] = solved(single({ innerDiameter, minorLoss: 0.5 }), under(1, { tankHead })).flow;
        const expected = flowUnder(tube({ innerDiameter, minorLoss: 1.5 }), tankHead, nu);
        expectClose(Q!, expected, { tolerance: 1e-9, relative: true, what: `flow from ${tankHead} m`, unit: "m³/s" });
      }
    }
  });

  it.each([0.1, 0.5, 1])("gives an emitter the head that its law asks for, exponent %s", (exponent) => {
    const emitter = { coefficient: 2e-6, exponent };
    const flows = solved(single({ outlet: { pot: 0, emitter }, height: 0.2 }), under(1));
    const expected = emitter.coefficient * (flows.headAt[0]! - 0.2) ** exponent;
    expectClose(flows.flow[0]!, expected, { tolerance: 1e-9, relative: true, what: "flow", unit: "m³/s" });
    expect(flows.headAt[0]!).toBeLessThan(1);
  });

  it("falls into the pot above its water, and flows against its level where that covers the end", () => {
    const flowWith = (level: number) => solved(single(), under(1, { potHeads: [level] })).flow[0]!;
    expect(flowWith(-0.1)).toBe(flowWith(Number.NEGATIVE_INFINITY));
    expect(flowWith(0.4)).toBe(solved(single({ height: 0.4 }), under(1)).flow[0]!);
  });

  it.each([
    ["its end is as high as the tank's water", single({ height: 1 }), {}],
    ["the pot's water stands as high as the tank's", single(), { potHeads: [1.2] }],
    ["a place on its way stands out of the tank's water", single({ via: [{ along: 1, height: 1.001 }] }), {}],
    ["the pot is shut", single(), { closed: [true] }],
  ])("gives nothing where %s", (_, line, changes) => {
    const flows = solved(line, under(1, changes));
    expect(Array.from(flows.flow)).toEqual([0]);
    expect(Array.from(flows.headAt)).toEqual([1]);
  });
});

describe("a line of many pots", () => {
  it("gives the pots near the tank more than those far from it", () => {
    const { outletFlow } = solved(comb(20), under(20));
    for (let k = 1; k < 20; k++) expect(outletFlow[k]!).toBeLessThan(outletFlow[k - 1]!);
  });

  it("leaves out the pots that lack head, and serves the others as if they were not there", () => {
    const potHeads = [Number.NEGATIVE_INFINITY, 2, Number.NEGATIVE_INFINITY, 0.99];
    const { outletFlow } = solved(comb(4), under(4, { potHeads }));
    const shut = solved(comb(4), under(4, { closed: [false, true, false, true] }));
    expect(outletFlow[1]).toBe(0);
    expect(outletFlow[3]).toBe(0);
    expectClose(outletFlow[2]!, shut.outletFlow[2]!, { tolerance: 1e-9, relative: true, what: "flow", unit: "m³/s" });
  });

  it("lets a pot give water back only where pots are joined and its water covers the tube's end", () => {
    const potHeads = [0.9, 0.1];
    const state = under(2, { tankHead: 0.5, potHeads });
    expect(solved(comb(2), state).outletFlow[0]).toBe(0);
    expect(solved(comb(2), { ...state, joined: true }).outletFlow[0]).toBeLessThan(0);
    const high = comb(2, { tubes: { height: 0.45 } });
    expect(solved(high, { ...state, potHeads: [0.4, 0.1], joined: true }).outletFlow[0]).toBeGreaterThan(0);
  });

  it("takes more where the water is warm, for laminar friction goes with viscosity", () => {
    const total = (celsius: number) => solved({ ...comb(5), celsius }, under(5)).flow[0]!;
    expect(total(30)).toBeGreaterThan(1.05 * total(10));
  });

  it("says where and by how much it misses when it finds no flows", () => {
    // So high that numbers cannot hold a head to the allowed error.
    const flows = solveLine(single(), under(1, { tankHead: 1e9 }));
    if (flows.kind === "solved") throw new Error("solved");
    expect(flows.where).toBe("tube");
    expect(flows.largestResidual).toBeGreaterThan(1e-10);
  });

  it("takes a head that is not a number for trouble", () => {
    const flows = solveLine(comb(3), under(3, { potHeads: [0, Number.NaN, 0] }));
    if (flows.kind === "solved") throw new Error("solved");
    expect(flows.largestResidual).toBeNaN();
  });
});

describe("a line that is no tree of pipes is refused", () => {
  it.each([
    [{ innerDiameter: 0 }, "tube: inner diameter 0 m; it must be greater than 0"],
    [{ length: -1 }, "tube: length -1 m; it must be 0 or more"],
    [{ roughness: 0.001 }, "tube: roughness 0.001 m; at most 5 % of its diameter"],
    [{ parent: 0 }, "tube: its parent, piece 0, must stand before it"],
    [{ minorLoss: Number.NaN }, "tube: minor loss NaN; it must be 0 or more"],
  ])("%j", (changes, words) => {
    expect(() => solveLine(single(changes), under(1))).toThrow(words);
  });
});
