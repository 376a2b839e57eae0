import { expect, test } from "vitest";
import {
  conductivityFromOpenPot,
  conductivityFromRoundPot,
  conductivityFromStandpipe,
} from "../../model/pot/wallTest.ts";
import { expectClose } from "../support/close.ts";
import { integrate } from "../support/integrate.ts";

test("the standpipe form gives the conductivity of a falling-head permeameter exercise", () => {
  // Textbook exercise in inches and minutes, from memory: 0.1147 in/min.
  const K = conductivityFromStandpipe({
    standpipeArea: 0.25,
    wallArea: 3,
    wallThickness: 15,
    days: 8,
    startHead: 25,
    endHead: 12,
  });
  expectClose(K, 0.1147, { tolerance: 5e-5, unit: "in/min", what: "K" });
});

test("the standpipe form finds the conductivity behind a computed fall of the standpipe", () => {
  const [Kw, w, A, a] = [0.09, 1.3, 1500, 4];
  const endHead = integrate((_t, H) => (-Kw * A * H) / (w * a), 60, 0.05, 1e-12);
  const K = conductivityFromStandpipe({
    standpipeArea: a,
    wallArea: A,
    wallThickness: w,
    days: 0.05,
    startHead: 60,
    endHead,
  });
  expectClose(K, Kw, { tolerance: 1e-9, relative: true, unit: "cm/day", what: "K" });
});

test("the open pot form finds the conductivity behind a computed fall of the level", () => {
  const [Kw, w, r] = [0.11, 1.26, 9];
  // Side and base of the inner surface, zero pressure outside: π r² dy/dt = −(Kw / w) (2π r y²/2 + π r² y).
  const fall = (_t: number, y: number) => -((Kw / w) * (Math.PI * r * y * y + Math.PI * r * r * y)) / (Math.PI * r * r);
  const endHeight = integrate(fall, 22, 2.5, 1e-12);
  const K = conductivityFromOpenPot({ innerRadius: r, wallThickness: w, days: 2.5, startHeight: 22, endHeight });
  expectClose(K, Kw, { tolerance: 1e-9, relative: true, unit: "cm/day", what: "K" });
});

test("the open pot form reads 0.05 cm/day from the levels of the exact thin-wall pot", () => {
  // Own derivation: 19 cm falls to 16.386 in 1 day, 12.637 in 3, 8.247 in 7, 4.574 in 14.
  for (const [days, endHeight] of [
    [1, 16.386],
    [3, 12.637],
    [7, 8.247],
    [14, 4.574],
  ] as const) {
    const K = conductivityFromOpenPot({ innerRadius: 9, wallThickness: 1, days, startHeight: 19, endHeight });
    expectClose(K, 0.05, { tolerance: 1e-4, unit: "cm/day", what: `K from ${days} days` });
  }
});

test("the round pot form undoes the pressure summed over a sphere", () => {
  // Depth below the top averages R over a sphere's 4π R².
  const [Kw, w, R] = [0.08, 1.5, 13];
  const flow = (Kw / w) * R * 4 * Math.PI * R ** 2;
  const K = conductivityFromRoundPot({ volume: (4 / 3) * Math.PI * R ** 3, wallThickness: w, flow });
  expectClose(K, Kw, { tolerance: 1e-14, unit: "cm/day", what: "K" });
});

test("a wall that let no water pass has no conductivity", () => {
  const still = { innerRadius: 9, wallThickness: 1, days: 3, startHeight: 19, endHeight: 19 };
  expect(conductivityFromOpenPot(still)).toBe(0);
});
