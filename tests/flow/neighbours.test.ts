import { sum } from "d3-array";
import { describe, expect, it } from "vitest";
import { groundPerPot } from "../../model/bed/potGrid.ts";
import { sampleField } from "../../model/flow/field.ts";
import { FINENESS } from "../../model/flow/gridRule.ts";
import { gridStore } from "../../model/flow/gridStore.ts";
import type { Neighbours } from "../../model/flow/problem.ts";
import { simulate } from "../../model/flow/simulate.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { expectClose } from "../support/close.ts";
import { livingCylinder, withShower } from "../support/living.ts";
import { among } from "../support/neighbours.ts";
import { cylinder, jar, tapered } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const SOILS = ["sand", "loam", "clay"];

const square = (spacing: number): Neighbours => ({ grid: "square", spacing });

describe("the ground of one pot among others", () => {
  it.each([
    ["square", cylinder],
    ["square", tapered],
    ["triangular", jar],
  ] as const)("on a %s grid has its own area, less the pot, and the pot's whole wall", (grid, shape) => {
    const pot = buildPot(shape);
    const { region, neighbours } = among(cylinderProblem(), { grid, spacing: 60 }).cell;
    const block = { ...region, neighbours: neighbours! };
    const { mesh } = gridStore().take(pot, block, FINENESS.live);
    const { mesh: rings } = gridStore().take(pot, region, FINENESS.live);
    const potVolume = Math.PI * region.radius ** 2 * region.depth - sum(rings.V);
    const ground = groundPerPot(grid, 60);
    expectClose(sum(mesh.V), ground * region.depth - potVolume, { tolerance: 1e-9, relative: true, what: "soil, cm³" });
    expectClose(sum(mesh.wall.area), sum(rings.wall.area), { tolerance: 1e-9, relative: true, what: "wall, cm²" });
    expectClose(sum(mesh.sides.bottom.area), ground, { tolerance: 1e-9, relative: true, what: "bottom, cm²" });
    expect([...mesh.faces.T].every((T) => T > 0)).toBe(true);
  });

  it.each(SOILS)(
    "far from others a pot in %s gives what a lone pot gives, and wets as far in every direction",
    (soil) => {
      const lone = cylinderProblem({ soil: classMean(soil), region: { radius: 100, depth: 130 }, accuracy: "live" });
      const { cell } = among(lone, square(200));
      const [alone, far] = [runToEnd(lone), runToEnd(cell)];
      far.rows.forEach((row, k) => {
        const { seepageLitres, wettedRadius, wettedDepth } = alone.rows[k]!;
        const what = (name: string) => `${name} on day ${row.day}`;
        expectClose(row.seepageLitres, seepageLitres, { tolerance: 0.01, relative: true, what: what("water given") });
        expectClose(row.wettedRadius, wettedRadius, { tolerance: 0.01, relative: true, what: what("wetted radius") });
        expectClose(row.wettedDepth, wettedDepth, { tolerance: 0.01, relative: true, what: what("wetted depth") });
      });
      const theta = far.frames.at(-1)!.theta;
      for (const r of [15, 25, 35]) {
        const [side, corner] = [0, Math.PI / 4].map((angle) => sampleField(far.grid, theta, r, 10, angle));
        expectClose(corner!, side!, { tolerance: 1e-3, what: `moisture ${r} cm towards a corner` });
      }
    },
  );

  it("is drier in the corner than midway to the next pot, more so on a square grid than on a triangular one", () => {
    const drier = (grid: Neighbours["grid"]) => {
      const spacing = 60;
      const corner = grid === "square" ? Math.PI / 4 : Math.PI / 6;
      const run = runToEnd(among(cylinderProblem({ accuracy: "live" }), { grid, spacing }).cell);
      const { h } = run.frames.at(-1)!;
      const midway = sampleField(run.grid, h, spacing / 2, 20);
      return sampleField(run.grid, h, spacing / 2 / Math.cos(corner), 20, corner) / midway;
    };
    const [ofSquare, ofHexagon] = [drier("square"), drier("triangular")];
    expect(ofHexagon).toBeGreaterThan(1);
    expect(ofSquare).toBeGreaterThan(ofHexagon);
  });
});

describe("the circle of the same area in place of the square", () => {
  it.each(SOILS)("in %s gives the same water to one per cent, and stands between midway and corner", (soil) => {
    const { cell, circle } = among(cylinderProblem({ soil: classMean(soil), accuracy: "live" }), square(60));
    const [truth, shortcut] = [runToEnd(cell), runToEnd(circle)];
    shortcut.rows.forEach(({ day, seepageLitres }, k) => {
      const known = truth.rows[k]!.seepageLitres;
      expectClose(seepageLitres, known, { tolerance: 0.01, relative: true, what: `water given by day ${day}` });
    });
    const [h, hCircle] = [truth.frames.at(-1)!.h, shortcut.frames.at(-1)!.h];
    const midway = sampleField(truth.grid, h, 30, 20);
    const corner = sampleField(truth.grid, h, 30 * Math.SQRT2, 20, Math.PI / 4);
    const side = sampleField(shortcut.grid, hCircle, circle.region.radius, 20);
    console.info(`${soil}: midway ${midway} cm, side of the circle ${side} cm, corner ${corner} cm`);
    expect(side).toBeLessThan(midway);
    expect(side).toBeGreaterThan(corner);
  });

  it.each([
    ["square", "loam", livingCylinder],
    ["triangular", "clay", (soil: string) => withShower(livingCylinder(soil))],
  ] as const)(
    "lets plants on a %s grid over %s drink as much, to two per cent of what they want",
    (grid, soil, bed) => {
      const living = bed(soil);
      const { cell, circle } = among({ ...living, accuracy: "live" }, { grid, spacing: 60 });
      const [truth, shortcut] = [runToEnd(cell), runToEnd(circle)];
      const [{ history }, other] = [truth, shortcut.history];
      const wanted = history.wantedLitres.at(-1)!;
      expectClose(other.wantedLitres.at(-1)!, wanted, { tolerance: 1e-9, relative: true, unit: "L", what: "wanted" });
      expectClose(other.uptakeLitres.at(-1)! / wanted, history.uptakeLitres.at(-1)! / wanted, {
        tolerance: 0.02,
        what: "met",
      });
    },
  );
});

it("a run in three dimensions stops when told, and keeps what it has", () => {
  const course = simulate(among(cylinderProblem({ accuracy: "live" }), square(60)).cell);
  for (let k = 0; k < 5; k++) expect(course.next().done).toBe(false);
  const { done, value } = course.next("stop");
  expect(done).toBe(true);
  expect(value).toMatchObject({ status: "stopped", steps: 5 });
});
