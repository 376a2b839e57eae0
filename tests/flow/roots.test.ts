import { describe, expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { CALM, type Roots } from "../../model/flow/problem.ts";
import { headsAt, rootUptake } from "../../model/flow/roots.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { expectClose } from "../support/close.ts";
import { evenGround } from "../support/ground.ts";
import { integrate } from "../support/integrate.ts";
import { evaluateAt, oneCell, systemOn } from "../support/kernel.ts";
import { classMean } from "../support/problems.ts";
import { solveSystem } from "../support/solveSystem.ts";

/** Lettuce: h1, h2, h4 of vegetables (Feddes et al. 1978, seen in a listing), h3 of Taylor & Ashcroft (1972, reprinted). */
const limits = { h1: -10, h2: -25, h3: { highDemand: -400, lowDemand: -600 }, h4: -8000 };

/** Of a cell with all the roots, at a head put there by hand. */
function alphaAt(h: number, demand: number): number {
  const one = oneCell(10, 10);
  const system = systemOn(one, evenGround(one, table), [rootUptake(one, rooted(10, 20), 1)]);
  const moment = { t: 0, spell: { ...CALM, transpiration: demand } };
  evaluateAt(system, { heads: () => -100, moment });
  system.kernel.cells.h[0] = h;
  system.evaluate({ dw: 0, isEmpty: true }, moment);
  return -system.flows[0]!.Q[0]! / demand;
}

describe("the reduction of uptake", () => {
  // (8000 − 4000) / (8000 − 400): Feddes et al. (1978) with lettuce's h3 at 5 mm/day.
  it("is 0.5263 for lettuce at −4000 cm and 5 mm/day", () => {
    expectClose(alphaAt(-4000, 0.5), 0.5263, { tolerance: 5e-5, what: "α" });
  });

  it.each([
    [-5, 0],
    [-10, 0],
    [-17.5, 0.5],
    [-25, 1],
    [-399, 1],
    [-8000, 0],
    [-20_000, 0],
  ])("at %d cm is %d", (h, expected) => {
    expect(alphaAt(h, 0.5)).toBe(expected);
  });

  it("begins at h3 of the demand: −600 cm up to 1 mm/day, −500 at 3, −400 from 5 on", () => {
    const begins = (demand: number) => headsAt(limits, demand).h3;
    expect([0, 0.1, 0.5, 0.9].map(begins)).toEqual([-600, -600, -400, -400]);
    expectClose(begins(0.3), -500, { tolerance: 1e-9, unit: "cm", what: "h3 at 3 mm/day" });
  });
});

const soil = vanGenuchten({ ...classMean("loam"), Ks: 1e-9 });
const table = soilTable(soil);
const mesh = tensorMesh({ geometry: "axisymmetric", rEdges: evenEdges(0, 40, 80), dEdges: evenEdges(0, 60, 120) });
const area = Math.PI * 40 ** 2;

/** Uptake by cell, cm³/day, in soil at one head. */
function uptakeOf(roots: Roots, h: number, t = 0, transpiration = 0.5): Float64Array {
  const boundary = rootUptake(mesh, roots, area);
  const system = systemOn(mesh, evenGround(mesh, table), [boundary]);
  evaluateAt(system, { heads: () => h, moment: { t, spell: { ...CALM, transpiration } } });
  const flows = system.flows[0]!;
  const uptake = new Float64Array(mesh.cellCount);
  boundary.cell.forEach((cell, k) => {
    uptake[cell] = -flows.Q[k]!;
  });
  return uptake;
}

const total = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0);
const mean = (of: Float64Array, weight: Float64Array) => total(of.map((x, i) => x * weight[i]!)) / total(weight);
const rooted = (depth: number, spread: number, adaptability = 0): Roots => ({
  plantRadius: 20,
  growth: [{ day: 0, depth, spread }],
  limits,
  adaptability,
});

describe("where roots drink", () => {
  it("in moist soil they take the whole demand of the area", () => {
    const taken = total(uptakeOf(rooted(30, 15), -100));
    expectClose(taken, 0.5 * area, { tolerance: 1e-12, relative: true, unit: "cm³/day", what: "uptake" });
  });

  // Density falling evenly to 0: its middle lies at a third of the depth, and at the plants; the ring's at R + s²/(6 R).
  it("the middle of what they take lies at a third of their depth, and about the plants' ring", () => {
    const uptake = uptakeOf(rooted(30, 15), -100);
    expectClose(mean(mesh.dCell, uptake), 10, { tolerance: 0.02, unit: "cm", what: "mean depth" });
    expectClose(mean(mesh.rCell, uptake), 20 + 15 ** 2 / 120, { tolerance: 0.02, unit: "cm", what: "mean radius" });
    mesh.rCell.forEach((r, i) => {
      if (Math.abs(r - 20) > 15.5 || mesh.dCell[i]! > 30.5) expect(uptake[i]).toBe(0);
    });
  });

  it("they grow by the day, along a straight line between the days given, and stay as they are after the last", () => {
    const growing = {
      ...rooted(10, 5),
      growth: [
        { day: 0, depth: 10, spread: 5 },
        { day: 20, depth: 50, spread: 15 },
      ],
    };
    // From the tenth day to the eleventh as on its noon: 10 + 40 · 10.5/20 = 31 cm deep.
    for (const t of [10, 10.9])
      expectClose(mean(mesh.dCell, uptakeOf(growing, -100, t)), 31 / 3, {
        tolerance: 0.02,
        unit: "cm",
        what: "mean depth",
      });
    expect([...uptakeOf(growing, -100, 40)]).toEqual([...uptakeOf(growing, -100, 20)]);
  });

  it("dry everywhere by half, they take half, or all that adaptability makes good", () => {
    const half = (-400 - 8000) / 2;
    const share = (adaptability: number) => total(uptakeOf(rooted(30, 15, adaptability), half)) / (0.5 * area);
    expectClose(share(0), 0.5, { tolerance: 1e-4, what: "share of the demand, no adaptability" });
    expectClose(share(0.25), 0.5 / 0.75, { tolerance: 1e-4, what: "share of the demand, a quarter" });
    expectClose(share(0.6), 1, { tolerance: 1e-12, what: "share of the demand, six tenths" });
  });
});

/**
 * Soil that passes no water, one cell, all of it rooted: V dθ/dt = −Tp A α(h(θ)), an ordinary equation that a
 * general-purpose integrator solves.
 */
it("soil that only roots dry follows its ordinary differential equation, from moist to past the wilting head", () => {
  const one = tensorMesh({ geometry: "axisymmetric", rEdges: evenEdges(0, 40, 1), dEdges: evenEdges(0, 60, 1) });
  const days = [5, 20, 60, 200];
  const { states } = solveSystem({
    mesh: one,
    table,
    boundaries: [rootUptake(one, rooted(60, 1000), area)],
    weather: [{ ...CALM, transpiration: 0.5 }],
    start: -100,
    stops: days,
    timeError: 1e-6,
  });
  const slope = (_: number, theta: number) => (-0.5 / 60) * alphaAt(soil.hAtTheta(theta), 0.5);
  days.forEach((day, k) => {
    const expected = integrate(slope, soil.theta(-100), day, 1e-10);
    expectClose(states[k]!.theta[0]!, expected, { tolerance: 1e-5, what: `θ on day ${day}` });
  });
});
