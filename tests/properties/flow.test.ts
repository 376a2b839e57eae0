import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BARE_GROUND, type Problem } from "../../model/flow/problem.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import type { PotShape } from "../../model/pot/pot.ts";
import { numRuns, seed } from "../support/deep.ts";
import { runToEnd } from "../support/runs.ts";

/** Sets of this many random soils and pots, each run for a short time. */
const EVERY_RUN = numRuns(20, 200);
const PAIRS = numRuns(5, 70);

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const logBetween = (min: number, max: number) => between(Math.log(min), Math.log(max)).map(Math.exp);

const anySoil = fc.record({
  thetaR: between(0.01, 0.1),
  thetaS: between(0.3, 0.5),
  alpha: logBetween(0.005, 0.15),
  n: between(1.09, 2.8),
  Ks: logBetween(0.5, 800),
  l: fc.constant(0.5),
});

const sizes = fc.record({
  wallThickness: between(0.8, 2),
  wallConductivity: logBetween(0.03, 0.15),
  plugLeakLitres: fc.constant(0),
  rimDepth: between(-4, 4),
  height: between(15, 40),
  widest: between(8, 18),
  share: between(0.6, 0.95),
});

const anyPot: fc.Arbitrary<PotShape> = fc
  .tuple(sizes, fc.constantFrom("cylinder", "tapered", "jar"))
  .map(([{ height, widest, share, ...common }, shape]): PotShape => {
    const pot = { ...common, outerDepth: common.rimDepth + height };
    if (shape === "cylinder") return { ...pot, shape, outerRadius: widest };
    if (shape === "tapered") return { ...pot, shape, rimRadius: widest, baseRadius: share * widest };
    const bellyDepth = common.rimDepth + height / 2;
    return {
      ...pot,
      shape: "jar",
      neckRadius: 0.5 * widest,
      baseRadius: 0.5 * widest,
      bellyRadius: widest,
      bellyDepth,
    };
  });

const anyProblem: fc.Arbitrary<Problem> = fc
  .record({
    soil: anySoil,
    pot: anyPot,
    startHead: logBetween(100, 15_000).map((suction) => -suction),
    isHeld: fc.boolean(),
    day: logBetween(0.05, 1),
  })
  .map(({ soil, pot, startHead, isHeld, day }) => ({
    soil,
    pot,
    startHead,
    filling: isHeld
      ? { kind: "held", levelDepth: Math.max(0, pot.rimDepth) }
      : { kind: "refilled", atDays: [0, 0.6 * day] },
    region: { radius: 70, depth: 110 },
    days: [0.5 * day, day],
    edges: [{ head: -330, depth: 10 }],
    accuracy: "live",
    ...BARE_GROUND,
  }));

/** Two runs of one problem, each with something changed, differ by no more than their time steps let them. */
const RUN_ERROR = 0.01;

const seepage = (problem: Problem) => runToEnd(problem).rows.at(-1)!.seepageLitres;

describe("on random soils and pots", () => {
  it("every run closes its water balance and keeps moisture and level within bounds, without NaN", () => {
    let worst = 0;
    fc.assert(
      fc.property(anyProblem, (problem) => {
        const run = runToEnd(problem);
        worst = Math.max(worst, run.balanceError);
        const wettest = Math.max(...run.frames.map(({ h }) => Math.max(...h)));
        const { fullDepth, emptyDepth } = buildPot(problem.pot);
        expect(wettest).toBeLessThanOrEqual(emptyDepth - Math.min(fullDepth, 0) + problem.pot.wallThickness + 0.5);
      }),
      { seed, numRuns: EVERY_RUN },
    );
    console.info(`worst balance error of ${EVERY_RUN} runs: ${worst.toExponential(1)}, allowed 1e-6`);
  });

  it("more head in the pot never gives less seepage", () => {
    fc.assert(
      fc.property(anyProblem, between(0.2, 0.8), (problem, share) => {
        const { fullDepth, emptyDepth } = buildPot(problem.pot);
        const top = Math.max(fullDepth, 0);
        const at = (levelDepth: number) => seepage({ ...problem, filling: { kind: "held", levelDepth } });
        const low = at(top + share * (emptyDepth - top));
        expect(at(top)).toBeGreaterThanOrEqual(low * (1 - RUN_ERROR));
      }),
      { seed, numRuns: PAIRS },
    );
  });

  it("the answer is the same in another unit of time", () => {
    fc.assert(
      fc.property(anyProblem, logBetween(0.1, 24), (problem, factor) => {
        const { soil, pot, filling, days } = problem;
        const scaled: Problem = {
          ...problem,
          soil: { ...soil, Ks: soil.Ks / factor },
          pot: { ...pot, wallConductivity: pot.wallConductivity / factor },
          filling:
            filling.kind === "held" ? filling : { kind: "refilled", atDays: filling.atDays.map((day) => day * factor) },
          days: days.map((day) => day * factor),
        };
        const [own, other] = [seepage(problem), seepage(scaled)];
        expect(Math.abs(other / own - 1)).toBeLessThan(RUN_ERROR);
      }),
      { seed, numRuns: PAIRS },
    );
  });
});
