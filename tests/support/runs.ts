import { expect } from "vitest";
import type { Problem } from "../../model/flow/problem.ts";
import type { GridLines, Run } from "../../model/flow/run.ts";
import { type SimulateOptions, simulateToEnd } from "../../model/flow/simulate.ts";
import { buildPot } from "../../model/pot/buildPot.ts";
import { CM3_PER_LITRE } from "../../model/units/factors.ts";

/** Runs a problem to its end and holds it against what must be true of every run. */
export function runToEnd(problem: Problem, options?: SimulateOptions): Run {
  const run = simulateToEnd(problem, undefined, options);
  validateRun(run, problem);
  return run;
}

/**
 * Finished; balanced; no NaN; moisture, level and heads within bounds; what the pot has given never shrinks. No soil is
 * wetter than under still water up to its surface, or to the pot's level where that is higher, by more than 1 cm.
 */
export function validateRun(run: Run, { soil, topLayer, pot, days, filling }: Problem): void {
  const { fullDepth, emptyDepth, capacity } = buildPot(pot);
  const { history, frames } = run;
  const soils = topLayer ? [soil, topLayer.soil] : [soil];
  const driest = Math.min(...soils.map(({ thetaR }) => thetaR));
  const wettest = Math.max(...soils.map(({ thetaS }) => thetaS));
  expect(run.status, JSON.stringify(run.trouble)).toBe("finished");
  expect(run.balanceError).toBeLessThan(1e-6);
  expect(run.rows.map(({ day }) => day)).toEqual(days);
  const highest = filling.kind === "held" ? Math.min(filling.levelDepth, fullDepth) : fullDepth;
  const depths = cellDepths(run.grid);
  for (const { h, theta } of frames) {
    expect(h.every(Number.isFinite)).toBe(true);
    expect(Math.max(...h.map((head, cell) => head - depths[cell]!))).toBeLessThan(1 - Math.min(highest, 0));
    expect(theta.every((value) => value >= driest && value <= wettest + 1e-12)).toBe(true);
  }
  expect(history.waterLevelDepth.every((dw) => dw >= highest - 1e-9 && dw <= emptyDepth + 1e-9)).toBe(true);
  const given = history.seepageLitres;
  expect(given.every((litres, k) => litres >= (given[k - 1] ?? 0) - 1e-12)).toBe(true);
  if (filling.kind === "refilled") {
    const poured = (filling.atDays.filter((day) => day < days.at(-1)!).length * capacity) / CM3_PER_LITRE;
    expect(given.at(-1)! + history.potLossLitres.at(-1)!).toBeLessThanOrEqual(poured * (1 + 2e-5));
  }
}

/** Depth by cell, cm. */
function cellDepths({ cellAt, rEdges, dCentre }: GridLines): number[] {
  const depths: number[] = [];
  cellAt.forEach((cell, k) => {
    if (cell >= 0) depths[cell] = dCentre[Math.floor(k / (rEdges.length - 1)) % dCentre.length]!;
  });
  return depths;
}
