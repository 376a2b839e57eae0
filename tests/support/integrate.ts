import { createRequire } from "node:module";

interface Solver {
  relativeTolerance: number;
  absoluteTolerance: number;
  solve(f: (t: number, y: number[]) => number[], t: number, y: number[], end: number): { y: number[]; outcome: number };
}

/** Loaded by `require`: its TypeScript source, which an import would draw in, does not pass a strict check. */
const odex: { Solver: new (size: number) => Solver } = createRequire(import.meta.url)("odex");

/** y at time `end` of y′ = f(t, y), y(0) = start, to about `tolerance` (Bulirsch–Stoer extrapolation, Hairer's ODEX). */
export function integrate(f: (t: number, y: number) => number, start: number, end: number, tolerance: number): number {
  const solver = new odex.Solver(1);
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  const { y, outcome } = solver.solve((t, [y]) => [f(t, y!)], 0, [start], end);
  if (outcome !== 0) throw new Error(`integration stopped before t = ${end} (outcome ${outcome})`);
  return y[0]!;
}
