import { expect, test } from "vitest";
import { stopperFor } from "../../model/pot/stopper.ts";

test("a stopper for a 2 cm hole goes from 1.7 to 2.3 cm", () => {
  expect(stopperFor(2)).toEqual({ smallEnd: 1.7, largeEnd: 2.3 });
});

test("a stopper starts in its hole and cannot pass it, by whole millimetres", () => {
  for (const hole of [0.6, 1, 1.35, 2.5, 4]) {
    const { smallEnd, largeEnd } = stopperFor(hole);
    expect(smallEnd).toBeLessThanOrEqual(hole * 0.85 + 1e-12);
    expect(largeEnd).toBeGreaterThanOrEqual(hole * 1.15 - 1e-12);
    expect(Number((smallEnd * 10).toFixed(9)) % 1).toBe(0);
    expect(Number((largeEnd * 10).toFixed(9)) % 1).toBe(0);
  }
});
