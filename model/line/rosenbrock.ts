/** One step of a stiff system y′ = f(y), whose slopes are known about. */
import { LuDecomposition, Matrix } from "ml-matrix";
import { entry } from "../input/lists.ts";

export interface Step {
  y: Float64Array;
  /** Per entry: the second order's part, which stands for the error and is more. */
  error: Float64Array;
}

/** 1 − 1/√2: damps what is stiff at once (L-stable). */
const GAMMA = 1 - Math.SQRT1_2;

/**
 * ROS2, of second order whatever `slopes` (∂f/∂y, n × n) stands for, and stable where that is about right: Verwer,
 * Spee, Blom & Hundsdorfer (1999), SIAM J. Sci. Comput. 20:1456, from memory.
 * Without slopes it is Heun's method, for what is not stiff.
 *   (1 − γhJ) k₁ = f(y),  (1 − γhJ) k₂ = f(y + h k₁) − 2 k₁,  y + h (3 k₁ + k₂)/2.
 */
export function rosenbrockStep(
  f: (y: Float64Array) => Float64Array,
  y: Float64Array,
  { rates, slopes, h }: { rates: Float64Array; slopes: Matrix | null; h: number },
): Step {
  const solve = slopes ? solverOf(slopes, h) : (right: Float64Array) => right;
  const k1 = solve(rates);
  const k2 = solve(f(y.map((value, i) => value + h * entry(k1, i))).map((value, i) => value - 2 * entry(k1, i)));
  return {
    y: y.map((value, i) => value + (h / 2) * (3 * entry(k1, i) + entry(k2, i))),
    error: y.map((_, i) => (h / 2) * (entry(k1, i) + entry(k2, i))),
  };
}

function solverOf(slopes: Matrix, h: number): (right: Float64Array) => ArrayLike<number> {
  const matrix = Matrix.mul(slopes, -GAMMA * h);
  for (let i = 0; i < matrix.rows; i++) matrix.set(i, i, 1 + matrix.get(i, i));
  const factors = new LuDecomposition(matrix);
  return (right) => factors.solve(Matrix.columnVector(right)).to1DArray();
}
