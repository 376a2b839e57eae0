/** The kernel's loops beside the same in plain TypeScript, on random states of two soils about a pot with life. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { evenEdges } from "../../model/checks/evenEdges.ts";
import { freeDrainage } from "../../model/flow/boundary.ts";
import { layeredGround } from "../../model/flow/ground.ts";
import { CALM } from "../../model/flow/problem.ts";
import { rootUptake } from "../../model/flow/roots.ts";
import { evaporation, rainfall } from "../../model/flow/surface.ts";
import { tensorMesh } from "../../model/flow/tensorMesh.ts";
import { potWall } from "../../model/flow/wall.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { soilTable } from "../../model/soil/soilTable.ts";
import { vanGenuchten } from "../../model/soil/vanGenuchten.ts";
import { numRuns } from "../support/deep.ts";
import { evaluateAt, systemOn } from "../support/kernel.ts";
import { cylinder } from "../support/pots.ts";
import { faceFlow, fallsTo0, halfCell, soilState } from "../support/referenceLoops.ts";
import { anyVanGenuchten } from "../support/soils.ts";

const pot = buildPot(cylinder);
const mesh = tensorMesh({
  geometry: "axisymmetric",
  rEdges: evenEdges(0, 30, 6),
  dEdges: evenEdges(0, 40, 8),
  outline: pot.outline,
});
const { faces, sides, wall } = mesh;
const BOTTOM = 25;

/** Heads from nearly all the water gone to standing water; at 0 itself slopes jump, and rounding decides the side. */
const anyHead = fc.oneof(
  { weight: 4, arbitrary: fc.double({ min: -2, max: 13, noNaN: true }).map((x) => -Math.exp(x)) },
  { weight: 1, arbitrary: fc.double({ min: -0.6, max: 20, noNaN: true }).filter((h) => Math.abs(h) > 1e-6) },
);

const anyCase = fc.record({
  soils: fc.tuple(anyVanGenuchten, anyVanGenuchten),
  heads: fc.array(anyHead, { minLength: mesh.cellCount, maxLength: mesh.cellCount }),
  dw: fc.double({ min: 0, max: 25, noNaN: true }),
  rain: fc.boolean(),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
});
type Case = typeof anyCase extends fc.Arbitrary<infer T> ? T : never;

const roots = {
  plantRadius: 20,
  growth: [{ day: 0, depth: 30, spread: 15 }],
  limits: { h1: -10, h2: -25, h3: { highDemand: -400, lowDemand: -600 }, h4: -8000 },
  adaptability: 0.3,
};

function systemOf({ soils, heads, dw, rain }: Case) {
  const [upper, lower] = soils.map((soil) => soilTable(vanGenuchten(soil), { wetEnd: -0.5 }));
  const ground = layeredGround(mesh, [
    { table: upper!, bottom: BOTTOM },
    { table: lower!, bottom: Number.POSITIVE_INFINITY },
  ]);
  const sky = rain ? rainfall(sides.top) : evaporation(sides.top);
  const system = systemOn(mesh, ground, [
    freeDrainage(sides.bottom),
    potWall(wall, pot),
    sky,
    rootUptake(mesh, roots, 2000),
  ]);
  const { cells } = system.kernel;
  heads.forEach((h, cell) => {
    cells.u[cell] = ground.uAtHead(cell, h);
    cells.known[cell] = cells.thetaR[cell]! + 0.1;
  });
  const spell = { ...CALM, rain: rain ? 2 : 0, evaporation: rain ? 0 : 0.6, transpiration: 0.4 };
  system.evaluate({ dw, isEmpty: false }, { t: 0, spell });
  const states = heads.map((_, cell) => soilState(ground.tableOf(cell), cells.u[cell]!));
  return { ground, system, states };
}

/** Agreement to 1e-12 of the size of what is compared, or of what it was added up from. */
function expectSame(found: number, expected: number, size: number, what: string): void {
  if (Math.abs(found - expected) <= 1e-12 * Math.max(size, Math.abs(expected))) return;
  expect.fail(`${what}: ${found}, in plain TypeScript ${expected}`);
}

const all = (check: (given: Case) => void) => fc.assert(fc.property(anyCase, check), { numRuns: numRuns(20, 400) });

it("soil functions agree to 1e-12", () => {
  all((given) => {
    const { system, states } = systemOf(given);
    states.forEach((state, cell) => {
      for (const [name, value] of Object.entries(state) as [keyof typeof state, number][])
        expectSame(system.kernel.cells[name][cell]!, value, name === "h" ? 1 : 0, `${name} at ${given.heads[cell]} cm`);
    });
  });
});

it("slopes of the flow across faces agree to 1e-12, where one soil is on both sides", () => {
  all((given) => {
    const { system, ground, states } = systemOf(given);
    const { ab, ba } = system.kernel.faces;
    for (const [f, a] of faces.a.entries()) {
      const b = faces.b[f]!;
      if (ground.layerOf(a) !== ground.layerOf(b)) continue;
      const { byA, byB } = faceFlow(states[a]!, states[b]!, faces.T[f]!, faces.drop[f]!);
      const steepness = 1 + faces.drop[f]! / Math.max(Math.abs(states[a]!.h - states[b]!.h), 1e-4);
      const size = faces.T[f]! * (states[a]!.dPhi + states[b]!.dPhi) * steepness;
      expectSame(ba[f]!, byA, size, `slope by a of face ${f}`);
      expectSame(ab[f]!, -byB, size, `slope by b of face ${f}`);
    }
  });
});

it("the wall gives what it should to 1e-6, the sky to 1e-12, and roots take no more than they want", () => {
  all((given) => {
    const { system, ground, states } = systemOf(given);
    const [, throughWall, sky, uptake] = system.flows;
    wall.cell.forEach((_, k) => {
      // The search leaves off at a step of 1e-7, after which the next one is rounding, but for kinks of the soil functions.
      const expected = wallFlow(given.dw, k, ground, states);
      expect(Math.abs(throughWall!.Q[k]! - expected)).toBeLessThanOrEqual(1e-6 * (wall.area[k]! + Math.abs(expected)));
    });
    const limit = given.rain ? 0 : -1e6;
    const flux = given.rain ? 2 : -0.6;
    sides.top.cell.forEach((c, k) => {
      const flow = halfCell(ground.tableOf(c), limit, states[c]!, sides.top.drop[k]!);
      const most = sides.top.T[k]! * flow;
      const offered = flux * sides.top.area[k]!;
      const expected = most * flux <= 0 ? 0 : Math.abs(most) < Math.abs(offered) ? most : offered;
      expectSame(sky!.Q[k]!, expected, sides.top.T[k]! * states[c]!.phi, `sky ${k}`);
    });
    const taken = -uptake!.Q.reduce((sum, Q) => sum + Q, 0);
    expect(taken).toBeGreaterThanOrEqual(0);
    expect(taken).toBeLessThanOrEqual(0.4 * 2000 * (1 + 1e-12));
  });
});

/** By halving: the wall's flow equals the soil's where its outer face has the right head. */
function wallFlow(
  dw: number,
  k: number,
  ground: ReturnType<typeof layeredGround>,
  states: ReturnType<typeof soilState>[],
) {
  const [upper, lower, area] = [wall.upper[k]!, wall.lower[k]!, wall.area[k]!];
  const isFlat = upper === lower;
  if (dw >= lower && !isFlat) return 0;
  const isCut = dw > upper && !isFlat;
  const depth = ((isCut ? dw : upper) + lower) / 2;
  const wetShare = isCut ? (lower - dw) / (lower - upper) : 1;
  const [c, p, drop] = [wall.cell[k]!, depth - dw, wall.drop[k]!];
  const conductance = pot.wallConductivity / pot.wallThickness;
  const soilTakes = (hf: number) => (wall.T[k]! / area) * halfCell(ground.tableOf(c), hf, states[c]!, drop);
  const [low, high] = [Math.min(states[c]!.h, p) - Math.abs(drop) - 1, Math.max(states[c]!.h, p) + Math.abs(drop) + 1];
  const hf = fallsTo0((h) => conductance * (p - h) - soilTakes(h), low, high);
  return conductance * (p - hf) * area * wetShare;
}

/** One cell on another, each of a soil of its own, 10 cm high. */
const pair = tensorMesh({
  geometry: "axisymmetric",
  rEdges: Float64Array.of(0, 20),
  dEdges: Float64Array.of(0, 10, 20),
});

it("between two soils as much flows out of one as into the other, at one head", () => {
  all(({ soils, heads }) => {
    const tables = soils.map((soil) => soilTable(vanGenuchten(soil), { wetEnd: -0.5 }));
    const ground = layeredGround(pair, [
      { table: tables[0]!, bottom: 10 },
      { table: tables[1]!, bottom: Number.POSITIVE_INFINITY },
    ]);
    const system = evaluateAt(systemOn(pair, ground, []), { heads: (cell) => heads[cell]! });
    const { inflow, u } = system.kernel.cells;
    const states = tables.map((table, cell) => soilState(table, u[cell]!));
    const into = (cell: number, hf: number) =>
      2 * pair.faces.T[0]! * halfCell(tables[cell]!, hf, states[cell]!, cell === 0 ? -5 : 5);
    const [low, high] = [Math.min(...heads.slice(0, 2)) - 10, Math.max(...heads.slice(0, 2)) + 10];
    const hf = fallsTo0((h) => -into(0, h) - into(1, h), low, high);
    const size = pair.faces.T[0]! * (states[0]!.phi + states[1]!.phi);
    // The kernel leaves off where the head is right to 1e-4, and reckons its last step along the slope.
    expect(Math.abs(inflow[1]! - into(1, hf))).toBeLessThanOrEqual(1e-6 * size);
    expectSame(inflow[0]!, -inflow[1]!, 0, "out of the upper cell");
  });
});

it("from wet gravel to dry soil below, where the flow bends with the head, one head is found", () => {
  const gravel = { thetaR: 0.07024, thetaS: 0.2, alpha: 0.2109, n: 3.495, Ks: 47.28, l: 1.18 };
  const dry = { thetaR: 0.1, thetaS: 0.39, alpha: 0.059, n: 1.48, Ks: 31.44, l: 0.5 };
  const [upper, lower] = [gravel, dry].map((soil) => soilTable(vanGenuchten(soil), { wetEnd: -0.5 }));
  const low = tensorMesh({
    geometry: "axisymmetric",
    rEdges: Float64Array.of(0, 20),
    dEdges: Float64Array.of(0, 10, 13),
  });
  const ground = layeredGround(low, [
    { table: upper!, bottom: 10 },
    { table: lower!, bottom: Number.POSITIVE_INFINITY },
  ]);
  const system = systemOn(low, ground, []);
  for (let h = -0.5; h > -20; h *= 1.03) {
    const { inflow } = evaluateAt(system, { heads: (cell) => (cell === 0 ? h : -300) }).kernel.cells;
    expect(inflow[1]).toBeGreaterThan(0);
  }
});

/** What flows into each cell by the plain formulas, and the size of what it is added up from; NaN beside other soil. */
function plainInflow({ system, ground, states }: ReturnType<typeof systemOf>) {
  const [inflow, size] = [new Float64Array(mesh.cellCount), new Float64Array(mesh.cellCount)];
  const put = (cell: number, Q: number, of = Math.abs(Q)) => {
    inflow[cell]! += Q;
    size[cell]! += of;
  };
  for (const [f, a] of faces.a.entries()) {
    const b = faces.b[f]!;
    const isOneSoil = ground.layerOf(a) === ground.layerOf(b);
    const Q = isOneSoil ? faceFlow(states[a]!, states[b]!, faces.T[f]!, faces.drop[f]!).Q : Number.NaN;
    put(a, -Q, Math.abs(Q) + faces.T[f]! * states[a]!.phi);
    put(b, Q, Math.abs(Q) + faces.T[f]! * states[b]!.phi);
  }
  for (const [k, { cell }] of system.boundaries.entries())
    for (const [face, c] of cell.entries()) put(c, system.flows[k]!.Q[face]!);
  return { inflow, size };
}

it("inflow is the sum of all flows, and the residuals follow from it", () => {
  all((given) => {
    const known = systemOf(given);
    const { cells, loops } = known.system.kernel;
    const { inflow, size } = plainInflow(known);
    const weight = 0.01;
    loops.measure(weight);
    for (const [c, expected] of inflow.entries()) {
      if (!Number.isNaN(expected)) expectSame(cells.inflow[c]!, expected, size[c]!, `inflow of cell ${c}`);
      const residual = mesh.V[c]! * (known.states[c]!.theta - cells.known[c]!) - weight * cells.inflow[c]!;
      expectSame(cells.residual[c]!, residual, mesh.V[c]!, `residual of cell ${c}`);
    }
  });
});

it("cells go a share of their step, no farther than they may; the second stage starts from the first one's flow", () => {
  all((given) => {
    const { system } = systemOf(given);
    const { cells, loops } = system.kernel;
    cells.uBefore.set(cells.u);
    for (const c of cells.step.keys()) cells.step[c] = Math.sin(c) * 0.3;
    loops.moveCells(given.share);
    for (const c of cells.u.keys()) expectSame(cells.u[c]!, moved(c, given.share, cells), 0, `u of cell ${c}`);
    loops.endFirstStage(0.01, 0.02);
    for (const c of cells.u.keys())
      expectSame(cells.known[c]!, (0.02 * cells.inflow[c]!) / mesh.V[c]!, 0, `known of cell ${c}`);
  });
});

/** Not past half the way to the driest water content, nor up through saturation or the driest head that roots drink from; without roots not down through saturation. */
function moved(c: number, share: number, cells: Record<string, Float64Array>): number {
  const at = (name: string) => cells[name]![c]!;
  const before = at("uBefore");
  const driest = Math.min(at("thetaR"), at("known"));
  let floor = before < driest ? driest : driest + (before - driest) / 2;
  if (before > at("uSaturated")) floor = at("uSaturated");
  let ceiling = before < at("uSaturated") ? at("uSaturated") : Number.POSITIVE_INFINITY;
  const corner = at("uCorner");
  if (corner > Number.NEGATIVE_INFINITY && before > corner) floor = Math.max(driest, corner);
  else if (corner > Number.NEGATIVE_INFINITY && before < corner) ceiling = corner;
  return Math.min(Math.max(before + share * at("step"), floor), ceiling);
}
