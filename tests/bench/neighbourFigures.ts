/** Pots all about, solved in three dimensions: cost and errors, and how far off the circle of the same area is. */
import { sampleField } from "../../model/flow/field.ts";
import type { Accuracy } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { comparedSoils } from "../../notebooks/notebook/comparedSoils.ts";
import { type Errors, errorsOf } from "../support/errors.ts";
import { among, FINER } from "../support/neighbours.ts";
import { classMean, cylinderProblem } from "../support/problems.ts";
import { timed } from "./measure.ts";

/** Distance between pots, cm, and the depth at which suctions are told. */
const SPACING = 60;
const DEPTH = 20;

/** Largest errors in water given and front, as shares. */
export const NEIGHBOUR_ERROR = 0.02;

export interface NeighbourFigure {
  name: string;
  accuracy: Accuracy;
  cells: number;
  milliseconds: number;
  balanceError: number;
  /** Against a grid half-way to the reference setting. */
  errors: Errors;
  /** The circle's water given over the square's at the end, less 1. */
  circleOff: number;
  /** At the end, cm: midway to the next pot, at the circle's side, and in the corner between four pots. */
  suctions: { midway: number; circle: number; corner: number };
}

/** Two weeks of the test problem's pot, kept full, on a square grid. */
export function neighbourFigures(tell: (what: string) => void): NeighbourFigure[] {
  return comparedSoils.flatMap((soil) => {
    const problem = cylinderProblem({ soil: classMean(soil), days: [1, 3, 7, 14] });
    const { cell, circle } = among(problem, { grid: "square", spacing: SPACING });
    tell(`pots all about in ${soil}, finer grid`);
    const truth = simulateToEnd(cell, undefined, { fineness: FINER });
    return (["live", "standard"] as const).map((accuracy) => {
      tell(`pots all about in ${soil}, ${accuracy}`);
      const { run, milliseconds } = timed({ ...cell, accuracy });
      const shortcut = simulateToEnd({ ...circle, accuracy });
      const given = (each: Run) => each.rows.at(-1)!.seepageLitres;
      return {
        name: `pots ${SPACING} cm apart in ${soil}`,
        accuracy,
        cells: run.cells,
        milliseconds,
        balanceError: run.balanceError,
        errors: errorsOf(run, truth),
        circleOff: given(shortcut) / given(run) - 1,
        suctions: suctionsOf(run, shortcut, circle.region.radius),
      };
    });
  });
}

function suctionsOf(run: Run, shortcut: Run, radius: number): NeighbourFigure["suctions"] {
  const suction = ({ grid, frames }: Run, r: number, angle = 0) =>
    -sampleField(grid, frames.at(-1)!.h, r, DEPTH, angle);
  return {
    midway: suction(run, SPACING / 2),
    circle: suction(shortcut, radius),
    corner: suction(run, SPACING * Math.SQRT1_2, Math.PI / 4),
  };
}

/** Megabytes that the process has taken at most. */
export const peakMegabytes = (): number => process.resourceUsage().maxRSS / 1024;
