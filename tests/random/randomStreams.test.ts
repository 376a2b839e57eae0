import { range } from "d3-array";
import { describe, expect, it } from "vitest";
import { rankCorrelation } from "../../model/ensemble/regressionShares.ts";
import { randomStreams } from "../../model/random/randomStreams.ts";

const COUNT = 2000;

describe("streams of random numbers", () => {
  it("have nothing to do with each other, whether of two names or of neighbouring seeds", () => {
    const drawn = [1, 2].flatMap((seed) => {
      const { soil, wall } = randomStreams(seed, ["soil", "wall"]);
      return [soil, wall].map((uniform) => range(COUNT).map(uniform));
    });
    // Four standard errors of a correlation of nothing.
    for (const [i, one] of drawn.entries())
      for (const other of drawn.slice(i + 1))
        expect(Math.abs(rankCorrelation(one, other))).toBeLessThan(4 / Math.sqrt(COUNT));
  });
});
