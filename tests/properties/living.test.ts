import { sum } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { POT_GRIDS } from "../../model/bed/potGrid.ts";
import type { Neighbours, Problem, Roots, Spell } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { numRuns, seed } from "../support/deep.ts";
import { among } from "../support/neighbours.ts";
import { cylinder, tapered } from "../support/pots.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { runToEnd } from "../support/runs.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const logBetween = (min: number, max: number) => between(Math.log(min), Math.log(max)).map(Math.exp);
const className = fc.constantFrom("sand", "sandy loam", "loam", "silt loam", "clay loam", "clay");

const anyRoots: fc.Arbitrary<Roots> = fc
  .record({
    plantRadius: between(20, 35),
    depth: between(10, 60),
    spread: between(8, 40),
    adaptability: between(0, 0.6),
  })
  .map(({ plantRadius, depth, spread, adaptability }) => ({
    plantRadius,
    growth: [
      { day: 0, depth, spread },
      { day: 10, depth: 1.5 * depth, spread: 1.3 * spread },
    ],
    limits: { h1: -10, h2: -25, h3: { highDemand: -400, lowDemand: -800 }, h4: -8000 },
    adaptability,
  }));

/** Dry days, a shower, dry days again. */
const anyWeather: fc.Arbitrary<Spell[]> = fc
  .record({
    transpiration: between(0, 0.8),
    evaporation: between(0, 0.5),
    rain: logBetween(0.5, 60),
    start: between(1, 2),
  })
  .map(({ transpiration, evaporation, rain, start }) => {
    const dry = { fromDay: 0, rain: 0, evaporation, transpiration, potRain: 0, potEvaporation: evaporation };
    const wet = { ...dry, fromDay: start, rain, potRain: rain, evaporation: 0, potEvaporation: 0 };
    return [dry, wet, { ...dry, fromDay: start + 0.1 }];
  });

const anyProblem: fc.Arbitrary<Problem> = fc
  .record({
    soil: className,
    mix: className,
    mixDepth: between(8, 50),
    pot: fc.constantFrom(cylinder, tapered),
    roots: anyRoots,
    weather: anyWeather,
    startHead: logBetween(50, 15_000).map((suction) => -suction),
  })
  .map(({ soil, mix, mixDepth, ...changes }) =>
    cylinderProblem({
      ...changes,
      soil: classMean(soil),
      topLayer: { soil: classMean(mix), depth: mixDepth },
      filling: { kind: "refilled", atDays: [0, 2.5] },
      region: { radius: 45, depth: 110 },
      days: [1, 3, 6],
      accuracy: "live",
    }),
  );

/** In two dimensions on null, in three on a grid. */
const anyNeighbours: fc.Arbitrary<Neighbours> = fc.record({
  grid: fc.constantFrom(...POT_GRIDS),
  spacing: between(35, 90),
});

const last = (values: number[]) => values.at(-1)!;
const RUNS = numRuns(8, 60);
/** Two runs of one problem, each with something changed, differ by no more than their time steps let them. */
const RUN_ERROR = 0.01;

/** Water that the soil holds at the run's end, less that at its start, litres. */
function gained({ grid, frames, startTheta }: Run): number {
  const { theta } = frames.at(-1)!;
  return sum(grid.V, (V, i) => (V * (theta[i]! - startTheta[i]!)) / 1000);
}

/** Largest of what went in or out, and how far in, out and storage miss each other, from what a run tells; soil and pot. */
function openBalance(problem: Problem, run: Run): { misfit: number; size: number } {
  const { history } = run;
  const pot = buildPot(problem.pot);
  const [seepage, uptake, evaporation, rain, drainage] = [
    history.seepageLitres,
    history.uptakeLitres,
    history.evaporationLitres,
    history.rainLitres,
    history.drainageLitres,
  ].map(last) as [number, number, number, number, number];
  const soil = gained(run) - (seepage + rain - uptake - evaporation - drainage);
  const left = 1000 * (last(history.pouredLitres) - seepage - last(history.potLossLitres));
  const held = pot.volumeAt(last(history.waterLevelDepth));
  // A pot counts as empty within 1e-5 of its water, which the next filling makes good.
  const inPot = held === 0 && Math.abs(left) <= 1e-5 * pot.capacity ? 0 : (left - held) / 1000;
  return {
    misfit: Math.max(Math.abs(soil), Math.abs(inPot)),
    size: Math.max(last(history.pouredLitres), seepage, uptake, evaporation, rain, drainage),
  };
}

describe("with two soils, rain, sun, an open pot and growing roots at once", () => {
  it("every run closes the balance of soil and pot, keeps within bounds, and takes no more than is asked", () => {
    let worst = 0;
    fc.assert(
      fc.property(anyProblem, fc.option(anyNeighbours, { freq: 1 }), (lone, neighbours) => {
        const problem = neighbours ? among(lone, neighbours).cell : lone;
        const run = runToEnd(problem);
        const { misfit, size } = openBalance(problem, run);
        worst = Math.max(worst, misfit / size);
        expect(misfit / size).toBeLessThan(1e-6);
        const { uptakeLitres, wantedLitres, evaporationLitres, rainLitres, runoffLitres } = run.history;
        expect(last(uptakeLitres)).toBeLessThanOrEqual(last(wantedLitres) * (1 + 1e-9) + 1e-12);
        for (const rising of [uptakeLitres, wantedLitres, evaporationLitres, rainLitres])
          expect(rising.every((value, k) => value >= (rising[k - 1] ?? 0) - 1e-9)).toBe(true);
        const fallen =
          sum(problem.weather, ({ rain }) => rain * 0.1) *
          Math.PI *
          (problem.region.radius ** 2 - openingRadius(problem) ** 2);
        expect(last(rainLitres) + last(runoffLitres)).toBeCloseTo(fallen / 1000, 6);
      }),
      { seed, numRuns: RUNS },
    );
    console.info(`worst balance of ${RUNS} runs, from what they tell: ${worst.toExponential(1)}, allowed 1e-6`);
  });

  it("more demand never makes a filling last longer, nor the pot give less", () => {
    fc.assert(
      fc.property(anyProblem, between(1.2, 3), (problem, times) => {
        const thirstier = problem.weather.map((spell) => ({ ...spell, transpiration: times * spell.transpiration }));
        const lone = { filling: { kind: "refilled" as const, atDays: [0] } };
        const [less, more] = [problem.weather, thirstier].map((weather) => runToEnd({ ...problem, ...lone, weather }));
        const emptied = (run: Run) => run.firstEmptyDay ?? Number.POSITIVE_INFINITY;
        expect(emptied(more!)).toBeLessThanOrEqual(emptied(less!) * (1 + RUN_ERROR));
        const [given, most] = [less!, more!].map((run) => last(run.history.seepageLitres));
        expect(most).toBeGreaterThanOrEqual(given! * (1 - RUN_ERROR));
      }),
      { seed, numRuns: RUNS / 2 },
    );
  });

  it("less sun on the soil, as under a mulch, never raises evaporation", () => {
    fc.assert(
      fc.property(anyProblem, between(0.1, 0.9), (problem, share) => {
        const shaded = problem.weather.map((spell) => ({ ...spell, evaporation: share * spell.evaporation }));
        const [bare, mulched] = [problem.weather, shaded].map((weather) => runToEnd({ ...problem, weather }));
        const [most, least] = [bare!, mulched!].map((run) => last(run.history.evaporationLitres));
        expect(least).toBeLessThanOrEqual(most! * (1 + RUN_ERROR) + 1e-6);
      }),
      { seed, numRuns: RUNS / 2 },
    );
  });

  it("a layer of the same soil changes nothing", () => {
    fc.assert(
      fc.property(anyProblem, (problem) => {
        const even = { ...problem, topLayer: null };
        const layered = { ...problem, topLayer: { ...problem.topLayer!, soil: problem.soil } };
        const [own, other] = [even, layered].map((each) => runToEnd(each).history);
        for (const key of ["seepageLitres", "uptakeLitres", "rainLitres"] as const) {
          const size = Math.max(last(own![key]), 0.05 * last(own!.seepageLitres));
          expect(Math.abs(last(own![key]) - last(other![key])), key).toBeLessThanOrEqual(RUN_ERROR * size);
        }
      }),
      { seed, numRuns: RUNS / 2 },
    );
  });
});

/** Of the pot at the soil surface. */
const openingRadius = ({ pot }: Problem) => buildPot(pot).outline.find(({ d }) => d >= 0)!.r;
