import { describe, expect, it } from "vitest";
import { emptyHistory } from "../../model/flow/recorder.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { soundValue } from "../../model/input/faults.ts";
import { answerOf, readProblem } from "../../model/problems/problemFile.ts";

const LOAM_F = {
  soil: {
    retention: { thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56 },
    conductivity: { Ks: 24.96, l: 0.5 },
  },
  pot: { shape: "cylinder", outerRadius: 10, outerDepth: 20, wallThickness: 1, wallConductivity: 0.05 },
  filling: { kind: "refilled", atDays: [0, 7] },
  startHead: -1000,
  region: { radius: 60, depth: 100 },
  ask: { days: [0.25, 1, 3, 7, 14], edgeHead: -330, radiusAtDepth: 10 },
};

type Change = Record<string, unknown>;

/** The file above with values put in at dotted paths; undefined takes a key away. */
function changed(changes: Change): string {
  const file = structuredClone(LOAM_F);
  for (const [path, value] of Object.entries(changes)) {
    const keys = path.split(".");
    const holder = keys.slice(0, -1).reduce<unknown>((part, key) => Reflect.get(part as object, key), file);
    Reflect.set(holder as object, keys.at(-1)!, value);
  }
  return JSON.stringify(file);
}

const read = (changes: Change = {}) => soundValue(readProblem(changed(changes)));

function faultsOf(changes: Change) {
  const problem = readProblem(changed(changes));
  return problem.ok ? [] : problem.faults;
}

describe("a problem file", () => {
  it("becomes the run it describes", () => {
    expect(read()).toEqual({
      soil: { thetaR: 0.078, thetaS: 0.43, alpha: 0.036, n: 1.56, Ks: 24.96, l: 0.5 },
      pot: {
        shape: "cylinder",
        outerRadius: 10,
        outerDepth: 20,
        rimDepth: 0,
        wallThickness: 1,
        wallConductivity: 0.05,
        plugLeakLitres: 0,
      },
      filling: { kind: "refilled", atDays: [0, 7] },
      startHead: -1000,
      region: { radius: 60, depth: 100 },
      days: [0.25, 1, 3, 7, 14],
      edges: [{ head: -330, depth: 10 }],
      accuracy: "standard",
      topLayer: null,
      weather: [],
      roots: null,
      neighbours: null,
    });
  });

  it("may leave out l and name its accuracy", () => {
    const problem = read({ "soil.conductivity.l": undefined, accuracy: "reference" });
    expect(problem.soil.l).toBe(0.5);
    expect(problem.accuracy).toBe("reference");
  });

  it("holds the level at the soil surface, or at the rim of a pot sunk below it", () => {
    expect(read({ filling: { kind: "held" } }).filling).toEqual({ kind: "held", levelDepth: 0 });
    expect(read({ filling: { kind: "held" }, "pot.rimDepth": -3 }).filling).toEqual({ kind: "held", levelDepth: 0 });
    expect(read({ filling: { kind: "held" }, "pot.rimDepth": 3 }).filling).toEqual({ kind: "held", levelDepth: 3 });
  });

  it("may tell of pots all about on an even grid: their ground is then solved in three dimensions", () => {
    const { region, neighbours } = read({ region: { pots: "square", spacing: 60, depth: 100 } });
    expect(neighbours).toEqual({ grid: "square", spacing: 60 });
    expect(region.depth).toBe(100);
    expect(Math.PI * region.radius ** 2).toBeCloseTo(3600, 9);
    expect(read({ "region.pots": "alone" })).toEqual(read());
  });

  it("is refused in plain words where pots stand too near, are of no grid, or have a radius too", () => {
    const messages = (region: object) => faultsOf({ region }).map(({ message }) => message);
    expect(messages({ pots: "square", spacing: 20, depth: 100 })).toEqual([
      "pot spacing is 20 cm; it must be at least 1.25 times the pot's width, 25 cm",
    ]);
    expect(messages({ pots: "round", spacing: 60, depth: 100 })[0]).toMatch(/one of alone, square, triangular$/);
    expect(messages({ pots: "triangular", spacing: 60, radius: 40, depth: 100 })[0]).toContain(
      "radius is not a known key",
    );
    expect(messages({ depth: 100 })[0]).toContain("region radius is missing");
  });

  it("takes the other pot shapes too", () => {
    const common = { outerDepth: 20, wallThickness: 1, wallConductivity: 0.05 };
    const shapes = [
      { shape: "tapered", rimRadius: 12, baseRadius: 8, ...common },
      { shape: "jar", neckRadius: 5, bellyRadius: 11, bellyDepth: 9, baseRadius: 0, ...common },
      { shape: "profile", points: [8, 10, 0].map((r, i) => ({ r, d: 10 * i })), ...common },
    ];
    for (const pot of shapes) expect(read({ pot }).pot).toEqual({ ...pot, rimDepth: 0, plugLeakLitres: 0 });
  });

  it.each<[string, Change, string, RegExp]>([
    [
      "a word for a number",
      { "soil.retention.alpha": "x" },
      "soil.retention.alpha",
      /alpha is "x"; it must be a number from 0.00001 to 10 1\/cm/,
    ],
    [
      "a negative conductivity",
      { "soil.conductivity.Ks": -1 },
      "soil.conductivity.Ks",
      /Ks is -1 cm\/day; it must be from/,
    ],
    ["n of 1", { "soil.retention.n": 1 }, "soil.retention.n", /n is 1; it must be greater than 1/],
    [
      "thetaR above thetaS",
      { "soil.retention.thetaR": 0.5 },
      "soil.retention.thetaR",
      /thetaR is 0\.5; it must be at most 0\.38, thetaS less 0\.05: with less room/,
    ],
    [
      "hardly any room between thetaR and thetaS",
      { "soil.retention.thetaR": 0.3801 },
      "soil.retention.thetaR",
      /thetaR is 0\.3801; it must be at most 0\.38,/,
    ],
    [
      "a pore exponent with which dry soil passes water too easily",
      { "soil.conductivity.l": -4.5 },
      "soil.conductivity.l",
      /^l is -4\.5; it must be at least -2\.892 where n is 1\.56: below that, dry soil would pass/,
    ],
    [
      "a pore exponent beyond all that are known",
      { "soil.retention.n": 1.05, "soil.conductivity.l": -11 },
      "soil.conductivity.l",
      /^l is -11; it must be from -10 to 10$/,
    ],
    [
      "a wall thicker than the pot",
      { "pot.wallThickness": 12 },
      "pot.wallThickness",
      /12 cm; it must be less than the pot radius, 10 cm/,
    ],
    [
      "a wall thicker than the pot is high",
      { "pot.outerDepth": 0.9 },
      "pot.wallThickness",
      /less than the pot's height, 0.9 cm/,
    ],
    [
      "a pot deeper than the soil",
      { "pot.outerDepth": 120 },
      "pot.outerDepth",
      /120 cm; it must be less than the depth of the soil, 100 cm/,
    ],
    [
      "a pot wider than the region",
      { "region.radius": 9 },
      "region.radius",
      /greater than the pot's largest radius, 10 cm/,
    ],
    ["a rim below the base", { "pot.rimDepth": 21 }, "pot.rimDepth", /less than the depth of the pot's base, 20 cm/],
    ["a positive starting head", { startHead: 5 }, "startHead", /5 cm; it must be from -10000000 to 0 cm/],
    ["no asked days", { "ask.days": [] }, "ask.days", /an empty list; it must be a list of 1 to 10000 days/],
    ["day zero", { "ask.days": [0] }, "ask.days.0", /0 days; it must be greater than 0/],
    ["a negative day", { "ask.days": [-1] }, "ask.days.0", /-1 days; it must be greater than 0/],
    ["an absurd day", { "ask.days": [1e6] }, "ask.days.0", /at most 10000 days/],
    [
      "days out of order",
      { "ask.days": [1, 3, 2] },
      "ask.days.2",
      /2 days; it must be greater than the one before it, 3 days/,
    ],
    ["a day named twice", { "ask.days": [1, 1] }, "ask.days.1", /greater than the one before it, 1 days/],
    [
      "refills out of order",
      { "filling.atDays": [7, 0] },
      "filling.atDays.1",
      /greater than the one before it, 7 days/,
    ],
    [
      "a line below the region",
      { "ask.radiusAtDepth": 101 },
      "ask.radiusAtDepth",
      /at most the depth of the soil, 100 cm/,
    ],
    ["an edge head of zero", { "ask.edgeHead": 0 }, "ask.edgeHead", /less than 0 cm/],
    ["an unknown key", { startHaed: 1 }, "startHaed", /not a known key; did you mean startHead\?/],
    ["an unknown accuracy", { accuracy: "high" }, "accuracy", /one of live, standard, reference/],
    ["an unknown shape", { "pot.shape": "cilinder" }, "pot.shape", /pot shape is "cilinder".*did you mean cylinder\?/],
    [
      "an unknown filling",
      { "filling.kind": "rain" },
      "filling.kind",
      /filling kind is "rain"; it must be one of held, refilled/,
    ],
    [
      "a missing part",
      { region: undefined },
      "region",
      /region is missing; it must be a group of values: pots, radius, depth/,
    ],
    ["an empty value", { startHead: null }, "startHead", /is empty \(null\); it must be a number from/],
  ])("with %s is refused by path, value and allowed range", (_, changes, path, message) => {
    const faults = faultsOf(changes);
    expect(faults.map((fault) => fault.path)).toEqual([path]);
    expect(faults[0]!.message).toMatch(message);
    expect(faults[0]!.allowed).not.toBe("");
  });

  it("that is a jar or a profile which cannot be is refused", () => {
    const common = { outerDepth: 20, wallThickness: 1, wallConductivity: 0.05 };
    const jar = { shape: "jar", neckRadius: 12, bellyRadius: 11, bellyDepth: 20, baseRadius: 0, ...common };
    const points = [
      { r: 8, d: 1 },
      { r: 0.5, d: 12 },
      { r: 8, d: 11 },
    ];
    const paths = (pot: object) => faultsOf({ pot }).map(({ path }) => path);
    expect(paths(jar)).toEqual(["pot.bellyRadius", "pot.bellyDepth"]);
    expect(paths({ shape: "profile", points, ...common })).toEqual([
      "pot.wallThickness",
      "pot.points.0.d",
      "pot.points.2.d",
      "pot.points.2.d",
    ]);
  });

  it("that is all wall where it ends in a point is refused", () => {
    const common = { wallThickness: 2, wallConductivity: 0.05 };
    const points = (rim: number, r: number) => [
      { r, d: rim },
      { r: 0, d: rim + 4 },
    ];
    const messages = (pot: object) => faultsOf({ pot: { ...common, ...pot } }).map(({ message }) => message);
    const cone = (rim: number, r: number) => ({
      shape: "profile",
      points: points(rim, r),
      rimDepth: rim,
      outerDepth: rim + 4,
    });
    // From the middle of the rim the side is 3 · 4 / √(3² + 4²) cm away, and 1 cm further down 3 · 3 / 5 cm.
    expect(messages(cone(0, 3))).toEqual([]);
    expect(messages(cone(-1, 3))).toEqual([
      "pot wall is 2 cm; it must be less than 1.8 cm, so that water stands in the pot below the soil surface",
    ]);
    expect(messages(cone(5, 2.1))[0]).toMatch(/must be less than 1\.859 cm/);
    const jar = { shape: "jar", neckRadius: 3, bellyRadius: 3, baseRadius: 0, rimDepth: -30 };
    expect(messages({ ...jar, bellyDepth: -25, outerDepth: 3 })[0]).toMatch(
      /^pot wall is 2 cm; it must be less than 1\./,
    );
    expect(messages({ ...jar, bellyDepth: -25, outerDepth: 30 })).toEqual([]);
  });

  it("is told every fault at once, those across fields beside those of single fields", () => {
    const faults = faultsOf({
      "soil.retention.n": 0.95,
      "soil.retention.thetaR": 0.5,
      "pot.wallThickness": 12,
      "pot.outerDepth": 120,
      "ask.days": [2, -1, 1],
      startHead: "dry",
      extra: 1,
    });
    expect(faults.map(({ path }) => path).sort()).toEqual([
      "ask.days.1",
      "extra",
      "pot.outerDepth",
      "pot.wallThickness",
      "soil.retention.n",
      "soil.retention.thetaR",
      "startHead",
    ]);
  });

  it("that is not JSON is refused in plain words", () => {
    const problem = readProblem('{"soil":');
    expect(problem.ok ? [] : problem.faults.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^the problem file is not a complete JSON text/),
    ]);
  });

  it("may start with a byte-order mark", () => {
    expect(readProblem(`\uFEFF${changed({})}`).ok).toBe(true);
  });
});

describe("an answer", () => {
  const run = {
    status: "failed",
    trouble: {
      reason: "step too small",
      day: 1.5,
      step: 12,
      place: { r: 10, d: 20 },
      change: "a higher n of the soil",
    },
    cells: 3,
    steps: 12,
    milliseconds: 4,
    balanceError: 1e-9,
    firstEmptyDay: null,
    rows: [],
    frames: [],
    startTheta: new Float64Array(),
    grid: {
      rEdges: new Float64Array(),
      dEdges: new Float64Array(),
      rCentre: new Float64Array(),
      dCentre: new Float64Array(),
      cellAt: new Int32Array(),
      V: new Float64Array(),
    },
    history: emptyHistory({ edges: [] }),
  } satisfies Run;

  it("of a failed run has reason, day, step and place beside its status", () => {
    expect(Object.entries(answerOf(run)).slice(0, 5)).toEqual([
      ["status", "failed"],
      ["reason", "step too small"],
      ["day", 1.5],
      ["step", 12],
      ["place", { r: 10, d: 20 }],
    ]);
  });

  it("of a finished run has the keys of the answer and no others", () => {
    const { trouble, ...finished } = run;
    expect(trouble).toBeDefined();
    expect(Object.keys(answerOf({ ...finished, status: "finished" }))).toEqual([
      "status",
      "cells",
      "steps",
      "milliseconds",
      "balanceError",
      "firstEmptyDay",
      "rows",
    ]);
  });

  it("says why where no edge is there, and nothing where there is one", () => {
    const row = { day: 1, seepageLitres: 1, waterLevelDepth: 0, drainageLitres: 0 };
    const reasons = (wettedRadius: number, wettedDepth: number) => {
      const grid = { ...run.grid, rEdges: Float64Array.of(0, 60), dEdges: Float64Array.of(0, 100) };
      const [answer] = answerOf({ ...run, grid, rows: [{ ...row, wettedRadius, wettedDepth }] }).rows;
      return [answer?.radiusReason, answer?.depthReason];
    };
    const none = /^no edge: no soil .* is wetter than the edge head$/;
    const all = /^no edge: the soil .* is wetter than the edge head as far as the region goes$/;
    expect(reasons(12, 30)).toEqual([undefined, undefined]);
    expect(reasons(0, 30)).toEqual([expect.stringMatching(none), undefined]);
    expect(reasons(60, 0)).toEqual([expect.stringMatching(all), expect.stringMatching(none)]);
    expect(reasons(60, 100)).toEqual([expect.stringMatching(all), expect.stringMatching(all)]);
  });

  it("of a start wetter than the edge, or of a wall that passes nothing, has numbers and reasons throughout", () => {
    const pot = { ...LOAM_F.pot, wallConductivity: 0 };
    const rowsOf = (changes: Change) => {
      const ask = { days: [0.1], edgeHead: -330, radiusAtDepth: 10 };
      const printed = JSON.stringify(answerOf(simulateToEnd(read({ accuracy: "live", ask, ...changes }))).rows);
      return JSON.parse(printed);
    };
    for (const startHead of [0, -0.005, -10])
      expect(rowsOf({ startHead })).toMatchObject([
        { wettedRadius: 60, radiusReason: expect.any(String), wettedDepth: 100, depthReason: expect.any(String) },
      ]);
    expect(rowsOf({ pot })).toMatchObject([
      { wettedRadius: 0, radiusReason: expect.any(String), wettedDepth: 0, depthReason: expect.any(String) },
    ]);
  });
});
