import { describe, expect, it } from "vitest";
import { roofLitres } from "../../model/supply/roof.ts";

const roof = { area: 40, runoff: 0.8, firstFlushMm: 0 };
const litres = (rainMm: number[], changes: object = {}) => [...roofLitres(rainMm, { ...roof, ...changes })];

describe("rain on a roof", () => {
  it("comes down as the share that runs off, a litre for each mm on each m²", () => {
    expect(litres([0, 10, 2.5])).toEqual([0, 320, 80]);
    expect(litres([10], { area: 0 })).toEqual([0]);
    expect(litres([10], { runoff: 0 })).toEqual([0]);
  });

  it("loses the first flush once for each run of wet days, at the start of the record too", () => {
    // 0.8 · 40 m² = 32 L for each mm that is left.
    expect(litres([2, 2, 0, 2, 2, 2], { firstFlushMm: 0.5 })).toEqual([48, 64, 0, 48, 64, 64]);
  });

  it("is lost whole where a shower is less than the first flush, and the next wet day keeps all of its own", () => {
    expect(litres([0.3, 5], { firstFlushMm: 0.5 })).toEqual([0, 160]);
  });
});
