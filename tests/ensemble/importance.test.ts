import { range, sum } from "d3-array";
import { randomNormal, randomUniform } from "d3-random";
import fc from "fast-check";
import { Matrix, solve } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { importanceOf, MEMBERS_PER_COLUMN, memberColumns } from "../../model/ensemble/importance.ts";
import { drawMembers, MEMBER_GROUPS } from "../../model/ensemble/members.ts";
import { averagedShares, meanRanks, rankCorrelation, rankShares } from "../../model/ensemble/regressionShares.ts";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { randomStreams } from "../../model/random/randomStreams.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { expectClose } from "../support/close.ts";
import { numRuns, seed } from "../support/deep.ts";

/** Every pairing of −1 and 1 in so many columns: they do not go together at all. */
const factorial = (columns: number) =>
  range(columns).map((i) => range(2 ** columns).map((row) => ((row >> i) & 1 ? 1 : -1)));

const combined = (columns: readonly (readonly number[])[], weights: readonly number[]) =>
  columns[0]!.map((_, row) => sum(columns, (column, i) => weights[i]! * column[row]!));

const exact = (what: string) => ({ tolerance: 1e-12, what });

describe("the shares of R²", () => {
  test("are the squared weights over their sum where columns do not go together", () => {
    const [a, b, c, d] = factorial(4) as [number[], number[], number[], number[]];
    const answers = combined([a, b, c, d], [3, 2, 1, 1]);
    const { shares, explained } = averagedShares({ one: [a], pair: [b, c], last: [d] }, answers)!;
    expectClose(shares.one, 9 / 15, exact("one"));
    expectClose(shares.pair, 5 / 15, exact("pair"));
    expectClose(shares.last, 1 / 15, exact("last"));
    expectClose(explained, 1, exact("explained"));
  });

  test("leave out what two columns do only together", () => {
    const [a, b] = factorial(2) as [number[], number[]];
    const answers = a.map((value, i) => 2 * value + value * b[i]!);
    const { shares, explained } = averagedShares({ a: [a], b: [b] }, answers)!;
    expectClose(shares.a, 4 / 5, exact("a"));
    expectClose(shares.b, 0, exact("b"));
    expectClose(explained, 4 / 5, exact("explained"));
  });

  // The variance of w₁x₁ + w₂x₂ with unit variances and correlation ρ, shared out over both orders by hand: x₁ alone
  // explains (w₁ + ρw₂)², and after x₂ it adds w₁²(1 − ρ²).
  test("of two columns that go together are those of the closed form", () => {
    const [a, b] = factorial(2) as [number[], number[]];
    const weight = fc.double({ min: 0.1, max: 3, noNaN: true });
    const correlation = fc.double({ min: -0.9, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(weight, weight, correlation, (w1, w2, rho) => {
        const other = combined([a, b], [rho, Math.sqrt(1 - rho ** 2)]);
        const { shares } = averagedShares({ first: [a], other: [other] }, combined([a, other], [w1, w2]))!;
        const total = w1 ** 2 + w2 ** 2 + 2 * rho * w1 * w2;
        const expected = ((w1 + rho * w2) ** 2 + w1 ** 2 * (1 - rho ** 2)) / 2 / total;
        expect(Math.abs(shares.first - expected)).toBeLessThan(1e-9);
        expect(Math.abs(shares.other - (1 - expected))).toBeLessThan(1e-9);
      }),
    );
  });

  test("of columns drawn one by one come near the squared weights over their sum, within four standard errors", () => {
    const draws = 20_000;
    const { uniform } = randomStreams(1, ["uniform"]);
    const draw = randomUniform.source(uniform)();
    const columns = range(3).map(() => range(draws).map(draw));
    const weights = [3, 2, 1];
    const { shares } = averagedShares(
      { a: [columns[0]!], b: [columns[1]!], c: [columns[2]!] },
      combined(columns, weights),
    )!;
    (["a", "b", "c"] as const).forEach((name, i) => {
      const expected = weights[i]! ** 2 / 14;
      // No more than that of a squared correlation of the same size.
      const standardError = 2 * Math.sqrt((expected * (1 - expected)) / draws);
      expectClose(shares[name], expected, { tolerance: 4 * standardError, what: name });
    });
  });

  test("are halves for columns that say the same, in whatever unit, and none for one that says nothing", () => {
    const column = [1, 2, 4, 7, 11];
    const inches = column.map((value) => value / 2.54 + 3);
    const { shares, explained } = averagedShares(
      { column: [column], inches: [inches], still: [[4, 4, 4, 4, 4]] },
      [2, 3, 3, 9, 12],
    )!;
    expectClose(shares.column, explained / 2, exact("column"));
    expectClose(shares.inches, explained / 2, exact("inches"));
    expect(shares.still).toBe(0);
    expect(explained).toBeGreaterThan(0.9);
  });

  test("take columns that agree to seven digits for one: what is left between them is rounding", () => {
    const [a, b] = factorial(2) as [number[], number[]];
    expectClose(averagedShares({ a: [a], alike: [combined([a, b], [1, 1e-7])] }, b)!.explained, 0, exact("explained"));
  });

  test("are none at all for answers that are all the same", () => {
    expect(averagedShares({ a: [[1, 2, 3]] }, [0.1, 0.1, 0.1])).toBe(null);
  });
});

/** Small whole numbers, so that ties, constant columns and columns that say the same occur; more rows than columns. */
const anySample = fc.integer({ min: 14, max: 20 }).chain((rows) => {
  const column = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: rows, maxLength: rows });
  const columns = fc.array(column, { minLength: 0, maxLength: 3 });
  return fc.record({ groups: fc.record({ a: columns, b: columns, c: columns, d: columns }), answers: column });
});

describe("for any columns", () => {
  test("shares sum to R², which is that of the regression by another solver; none is below 0", () => {
    fc.assert(
      fc.property(anySample, ({ groups, answers }) => {
        const found = averagedShares(groups, answers);
        if (found === null) return;
        const { explained, shares } = found;
        expect(Math.abs(sum(Object.values(shares)) - explained)).toBeLessThan(1e-9);
        for (const share of Object.values(shares)) expect(share).toBeGreaterThan(-1e-9);
        expect(Math.abs(explained - explainedByLeastSquares(Object.values(groups).flat(), answers))).toBeLessThan(1e-9);
      }),
      { seed, numRuns: numRuns(100, 1000) },
    );
  });

  test("the order in which groups are named changes nothing", () => {
    fc.assert(
      fc.property(anySample, ({ groups: { a, b, c, d }, answers }) => {
        const one = averagedShares({ a, b, c, d }, answers);
        const other = averagedShares({ d, b, a, c }, answers);
        expect(one === null).toBe(other === null);
        if (one === null || other === null) return;
        for (const name of ["a", "b", "c", "d"] as const)
          expect(Math.abs(one.shares[name] - other.shares[name])).toBeLessThan(1e-9);
      }),
      { seed, numRuns: numRuns(80, 1000) },
    );
  });
});

describe("a sample in which members stand several times or not at all", () => {
  test("has the shares of the ranks of its members written out", () => {
    const counts = fc.array(fc.constantFrom(0, 0, 0, 0, 1, 3), { minLength: 20, maxLength: 20 });
    fc.assert(
      fc.property(anySample, counts, ({ groups, answers }, counts) => {
        const places = range(answers.length).flatMap((place) => range(counts[place]!).map(() => place));
        fc.pre(places.length > 0);
        const ranksOf = (column: readonly number[]) => meanRanks(places.map((place) => column[place]!));
        const { a, b, c, d } = groups;
        const ranked = { a: a.map(ranksOf), b: b.map(ranksOf), c: c.map(ranksOf), d: d.map(ranksOf) };
        const expected = averagedShares(ranked, ranksOf(answers));
        const found = rankShares(groups, answers)(counts.slice(0, answers.length));
        expect(found === null).toBe(expected === null);
        if (expected === null || found === null) return;
        for (const name of ["a", "b", "c", "d"] as const)
          expect(Math.abs(found.shares[name] - expected.shares[name])).toBeLessThan(1e-9);
      }),
      { seed, numRuns: numRuns(80, 1000) },
    );
  });
});

function explainedByLeastSquares(columns: readonly (readonly number[])[], answers: readonly number[]): number {
  const design = new Matrix(answers.map((_, row) => [1, ...columns.map((column) => column[row]!)]));
  const fitted = design.mmul(solve(design, Matrix.columnVector([...answers]), true)).to1DArray();
  const middle = sum(answers) / answers.length;
  const left = sum(answers, (value, i) => (value - fitted[i]!) ** 2);
  return 1 - left / sum(answers, (value) => (value - middle) ** 2);
}

describe("ranks", () => {
  test("of equal values are the mean of their places", () => {
    expect(meanRanks([30, -1, 30, 2, 30, 2])).toEqual([4, 0, 4, 1.5, 4, 1.5]);
    expect(meanRanks([Number.POSITIVE_INFINITY, 3, Number.POSITIVE_INFINITY])).toEqual([1.5, 0, 1.5]);
  });

  // Spearman's ρ of two columns by 1 − 6 Σ d² / (n³ − n), without ties: d = 1, 1, 1, 1, 0.
  test("go together as Spearman's formula says, and not at all with a constant column", () => {
    expectClose(rankCorrelation([1, 2, 3, 4, 5], [20, 10, 400, 30, 5000]), 1 - (6 * 4) / 120, exact("ρ"));
    expectClose(rankCorrelation([1, 2, 3], [3, 2, 1]), -1, exact("ρ of opposites"));
    expect(rankCorrelation([1, 2, 3], [7, 7, 7])).toBe(0);
  });
});

const normalColumns = (seed: number, columns: number, rows: number) => {
  const { uniform } = randomStreams(seed, ["uniform"]);
  const draw = randomNormal.source(uniform)();
  return range(columns).map(() => range(rows).map(draw));
};

function shown(groups: Parameters<typeof importanceOf>[0], answers: readonly number[], seed = 1) {
  const found = importanceOf(groups, answers, { seed });
  if (found.kind !== "shares") throw new Error(found.kind);
  return found;
}

describe("what matters", () => {
  const [a, b] = normalColumns(1, 2, 60) as [number[], number[]];
  const answers = combined([a, b], [2, 1]);

  test("is the same however answer and inputs are bent, so long as they keep their order", () => {
    const bent = shown(
      { a: [a.map((value) => Math.exp(3 * value))], b: [b.map((value) => value ** 3)] },
      answers.map(Math.exp),
    );
    expect(bent).toEqual(shown({ a: [a], b: [b] }, answers));
  });

  // The rank correlation of two normal columns with correlation r is 6/π asin(r/2) (Pearson 1907, from memory).
  test("comes near Pearson's 6/π asin(r/2), squared, for normal columns, within four standard errors", () => {
    const draws = 20_000;
    const [x, y] = normalColumns(2, 2, draws) as [number[], number[]];
    const { shares } = averagedShares(
      { x: [meanRanks(x)], y: [meanRanks(y)] },
      meanRanks(combined([x, y], [0.8, 0.6])),
    )!;
    for (const [name, r] of [
      ["x", 0.8],
      ["y", 0.6],
    ] as const) {
      const expected = ((6 / Math.PI) * Math.asin(r / 2)) ** 2;
      const standardError = 2 * Math.sqrt((expected * (1 - expected)) / draws);
      expectClose(shares[name], expected, { tolerance: 4 * standardError, what: name });
    }
  });

  test("has 80 % ranges that hold the true share in about four of five samples", () => {
    const samples = numRuns(80, 400);
    const expected = ((6 / Math.PI) * Math.asin(0.8 / 2)) ** 2;
    const hits = range(samples).filter((seed) => {
      const [x, y] = normalColumns(100 + seed, 2, 40) as [number[], number[]];
      const { low, high } = shown({ x: [x], y: [y] }, combined([x, y], [0.8, 0.6]), seed).shares.x!;
      return low <= expected && expected <= high;
    });
    const tolerance = 4 * Math.sqrt((0.8 * 0.2) / samples);
    expectClose(hits.length / samples, 0.8, { tolerance, what: "samples whose range holds the true share" });
  });

  test("has narrower ranges with more members, by the square root of their number", () => {
    const width = (rows: number) => {
      const [x, y] = normalColumns(3, 2, rows) as [number[], number[]];
      const { low, high } = shown({ x: [x], y: [y] }, combined([x, y], [0.8, 0.6])).shares.x!;
      return high - low;
    };
    // Each width is itself good to some 10 %.
    expectClose(width(100) / width(1600), 4, { tolerance: 0.3, relative: true, what: "times as wide" });
  });

  test("is the same for the same seed, and ranges only differ with another", () => {
    const groups = { a: [a], b: [b] };
    expect(shown(groups, answers, 7)).toEqual(shown(groups, answers, 7));
    const [one, other] = [shown(groups, answers, 7), shown(groups, answers, 8)];
    expect(one.shares.a!.share).toBe(other.shares.a!.share);
    expect(one.shares.a!.low).not.toBe(other.shares.a!.low);
  });

  test("says how often each group leads: always where it is clear, half the time where two are level", () => {
    expect(shown({ a: [a], b: [b] }, combined([a, b], [5, 1])).leads).toEqual({ a: 1, b: 0 });
    const [x, y] = factorial(6) as [number[], number[]];
    const { leads } = shown({ x: [x], y: [y] }, combined([x, y], [1, 1]));
    expectClose(leads.x!, 0.5, { tolerance: 4 * Math.sqrt(0.25 / 100), what: "x leads" });
    expectClose(leads.x! + leads.y!, 1, exact("leads of both"));
  });

  test("is not told where members are too few, counting only columns that vary", () => {
    const constant = a.map(() => 5);
    const groups = { a: [a.slice(0, 5), constant.slice(0, 5)], b: [b.slice(0, 5)] };
    expect(importanceOf(groups, answers.slice(0, 5), { seed: 1 })).toEqual({
      kind: "too few",
      members: 5,
      needed: 2 * MEMBERS_PER_COLUMN,
    });
    expect(importanceOf({ ...groups, b: [constant.slice(0, 5)] }, answers.slice(0, 5), { seed: 1 }).kind).toBe(
      "shares",
    );
    expect(importanceOf({ a: [], b: [] }, [], { seed: 1 }).kind).toBe("too few");
  });

  test("is not told where all members answer the same, nor hurt by an answer that is beyond all days", () => {
    expect(
      importanceOf(
        { a: [a] },
        a.map(() => 3),
        { seed: 1 },
      ),
    ).toEqual({ kind: "no spread", members: 60 });
    const late = a.map((value) => (value > 1 ? Number.POSITIVE_INFINITY : value));
    expect(shown({ a: [a] }, late).shares.a!.share).toBeGreaterThan(0.9);
  });
});

describe("an ensemble's columns", () => {
  const plan = soundValue(resolvePlan(demoPlan));
  const drawn = (varied: typeof MEMBER_GROUPS) => drawMembers(plan, { count: 60, seed: 1, varied });

  test("stand in their groups: an answer that is one drawn value goes with that value's group alone", () => {
    const members = drawn(MEMBER_GROUPS);
    const ofGroup = {
      conductivity: members.map(({ soil }) => soil.Ks),
      retention: members.map(({ soil }) => soil.n),
      wall: members.map(({ wallFactor }) => wallFactor),
      start: members.map(({ startHead }) => startHead),
      pot: members.map(({ potScale }) => potScale),
    };
    for (const name of MEMBER_GROUPS) {
      const { shares, explained } = shown(memberColumns(members), ofGroup[name]);
      expectClose(explained.share, 1, { tolerance: 1e-9, what: name });
      // Others share in what chance lets them have in common with it.
      expect(shares[name]!.share).toBeGreaterThan(0.75);
    }
  });

  test("that are not varied have no share", () => {
    const members = drawMembers(plan, { count: 60, seed: 1, varied: ["wall", "pot"] });
    const { shares } = shown(
      memberColumns(members),
      members.map(({ wallFactor, potScale }) => wallFactor * potScale),
    );
    for (const name of ["conductivity", "retention", "start"]) expect(shares[name]!.high).toBeLessThan(1e-12);
    expect(shares.wall!.share).toBeGreaterThan(0.5);
  });
});
