/** Measures everything that `npm run bench` prints, as plain data. */
import { median } from "d3-array";
import { buriedCylinder } from "../../model/checks/loadChecks.ts";
import { ALLOWED_ERROR, FINENESS } from "../../model/flow/gridRule.ts";
import type { Accuracy, Problem } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import { soundValue } from "../../model/input/faults.ts";
import { resolvePlan } from "../../model/plan/plan.ts";
import { planToProblem } from "../../model/problems/bareProblem.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { comparedSoils, meanOf } from "../../notebooks/notebook/comparedSoils.ts";
import { frameDays } from "../../notebooks/questions/how-far-does-water-spread/notebook.ts";
import { threadQueue } from "../../notebooks/solving/threads.ts";
import { coarser } from "../support/coarser.ts";
import { type Errors, errorsOf, isWithin, knownAnswers } from "../support/errors.ts";
import {
  LIVING_ALLOWED,
  type LivingErrors,
  lifeless,
  livingCylinder,
  livingErrors,
  withShower,
} from "../support/living.ts";
import { jar, tapered } from "../support/pots.ts";
import { knownProblem } from "../support/problems.ts";
import { allCases, type SweepCase, sweepCases } from "../support/sweep.ts";
import { type BrowserFigures, browserFigures } from "./browserFigures.ts";
import { type EarlyFigure, earlyFigures } from "./earlyFigures.ts";
import { type EnsembleFigures, ensembleFigures } from "./ensembleFigures.ts";
import { type Figure, timed } from "./measure.ts";
import { NEIGHBOUR_ERROR, type NeighbourFigure, neighbourFigures, peakMegabytes } from "./neighbourFigures.ts";

export interface Wish {
  all: boolean;
  browser: boolean;
}

export interface Figures {
  /** The test problem; errors against the known answers. */
  shared: Figure[];
  /** Errors of the reference setting against itself with cells twice as large, a third of the difference (second order). */
  reference: { name: string; errors: Errors }[];
  /** Other pots in loam kept full: median time over the cylinder's. */
  otherPots: { name: string; accuracy: Accuracy; ratio: number }[];
  /**
   * Roots, sun, an open pot and a bed mix at once: median time over that of the same pot and ground with none of it,
   * without and with a shower; errors against the reference setting.
   */
  living: LivingFigure[];
  early: EarlyFigure[];
  /** Pots all about in three dimensions, and the most memory that was taken by then, MB. */
  neighbours: { rows: NeighbourFigure[]; megabytes: number };
  /** Errors against the reference setting. */
  sweep: Figure[];
  demoBed: Figure[];
  ensemble: EnsembleFigures;
  browser?: BrowserFigures;
}

export interface LivingFigure {
  name: string;
  accuracy: "live" | "standard";
  milliseconds: number;
  ratio: number;
  showerRatio: number;
  errors: LivingErrors;
}

type Tell = (what: string) => void;

export async function figuresOf({ all, browser }: Wish, tell: Tell): Promise<Figures> {
  const shared = sharedFigures(tell);
  return {
    shared,
    reference: referenceFigures(tell),
    otherPots: otherPots(tell),
    living: livingFigures(tell),
    early: earlyFigures(),
    neighbours: { rows: neighbourFigures(tell), megabytes: peakMegabytes() },
    sweep: (all ? allCases() : sweepCases()).flatMap((each) => sweepFigures(each, tell)),
    demoBed: demoBed(tell),
    ensemble: await loamEnsemble(tell),
    ...(browser && { browser: await browserFigures(shared, tell) }),
  };
}

/** What is above its bound, in words. */
export function failuresOf({ shared, sweep, living, early, neighbours }: Figures): string[] {
  const above = [
    ...[...shared, ...sweep].filter(({ accuracy, errors }) => errors && !isWithin(errors, ALLOWED_ERROR[accuracy])),
    ...living.filter(({ accuracy, errors }) => !isLivingWithin(errors, accuracy)),
    ...early.filter(({ error, allowed }) => error > allowed),
    ...neighbours.rows.filter((row) => !isNeighbourWithin(row)),
  ];
  return above.map(({ name, accuracy }) => `${name}, ${accuracy}`);
}

export const isLivingWithin = (errors: LivingErrors, accuracy: "live" | "standard"): boolean =>
  (Object.keys(errors) as (keyof LivingErrors)[]).every((key) => errors[key] <= LIVING_ALLOWED[accuracy][key]);

export const isNeighbourWithin = ({ errors: { seepage, radius, depth } }: NeighbourFigure): boolean =>
  Math.max(seepage, radius, depth) <= NEIGHBOUR_ERROR;

const figure = (name: string, accuracy: Accuracy, run: Run, milliseconds: number, errors?: Errors): Figure => ({
  name,
  accuracy,
  cells: run.cells,
  steps: run.steps,
  milliseconds,
  balanceError: run.balanceError,
  ...(errors && { errors }),
});

const ACCURACIES: Accuracy[] = ["live", "standard", "reference"];

function sharedFigures(tell: Tell): Figure[] {
  return ACCURACIES.flatMap((accuracy) =>
    buriedCylinder().rows.map((known) => {
      tell(`${known.name}, ${accuracy}`);
      const { run, milliseconds } = timed({ ...knownProblem(known), accuracy });
      return figure(known.name, accuracy, run, milliseconds, errorsOf(run, knownAnswers(known)));
    }),
  );
}

function referenceFigures(tell: Tell): Figures["reference"] {
  return buriedCylinder().rows.map((known) => {
    tell(`${known.name}, reference on two grids`);
    const problem: Problem = { ...knownProblem(known), accuracy: "reference" };
    const run = simulateToEnd(problem);
    const errors = errorsOf(simulateToEnd(problem, undefined, { fineness: coarser(FINENESS.reference) }), run);
    return { name: known.name, errors: third(errors) };
  });
}

const third = (errors: Errors) =>
  Object.fromEntries(Object.entries(errors).map(([name, error]) => [name, error / 3])) as unknown as Errors;

function otherPots(tell: Tell): Figures["otherPots"] {
  const loam = knownProblem(buriedCylinder().rows.find(({ soil, filling }) => soil === "loam" && filling === "held")!);
  return (["live", "standard"] as const).flatMap((accuracy) => {
    const time = (problem: Problem) => timed({ ...problem, accuracy }).milliseconds;
    return [tapered, jar].map((pot) => {
      tell(`${pot.shape} beside cylinder, ${accuracy}`);
      // In turns, so that a busy machine slows both.
      const ratios = [1, 2, 3].map(() => time({ ...loam, pot }) / time(loam));
      return { name: pot.shape, accuracy, ratio: median(ratios)! };
    });
  });
}

function livingFigures(tell: Tell): LivingFigure[] {
  return comparedSoils.flatMap((soil) => {
    const problem = livingCylinder(soil);
    const reference = simulateToEnd({ ...problem, accuracy: "reference" });
    return (["live", "standard"] as const).map((accuracy) => {
      tell(`living bed of ${soil}, ${accuracy}`);
      const time = (each: Problem) => timed({ ...each, accuracy }).milliseconds;
      // In turns, so that a busy machine slows all three.
      const times = [1, 2, 3].map(() => [lifeless(problem), problem, withShower(problem)].map(time));
      const ratio = (k: number) => median(times, (each) => each[k]! / each[0]!)!;
      return {
        name: `living bed of ${soil}`,
        accuracy,
        milliseconds: median(times, (each) => each[1]!)!,
        ratio: ratio(1),
        showerRatio: ratio(2),
        errors: livingErrors(simulateToEnd({ ...problem, accuracy }), reference),
      };
    });
  });
}

function sweepFigures({ name, problem }: SweepCase, tell: Tell): Figure[] {
  tell(name);
  const reference = simulateToEnd({ ...problem, accuracy: "reference" });
  return (["live", "standard"] as const).map((accuracy) => {
    const run = simulateToEnd({ ...problem, accuracy });
    return figure(name, accuracy, run, run.milliseconds, errorsOf(run, reference));
  });
}

async function loamEnsemble(tell: Tell): Promise<EnsembleFigures> {
  tell("an ensemble of soils called loam");
  const queue = threadQueue();
  try {
    return await ensembleFigures(soundValue(resolvePlan(demoPlan)), queue);
  } finally {
    queue.end();
  }
}

function demoBed(tell: Tell): Figure[] {
  const plan = soundValue(resolvePlan(demoPlan));
  return comparedSoils.map((name) => {
    tell(`demo bed in ${name}`);
    const { run, milliseconds } = timed(planToProblem(plan, { soil: meanOf(name), days: frameDays, accuracy: "live" }));
    return figure(`demo bed in ${name}`, "live", run, milliseconds);
  });
}
