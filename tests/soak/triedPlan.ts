/** One plan put to the test: its runs at the live setting, and whatever answers are read from them. */

import { watchedOutcome, watchedProblem } from "../../model/advice/pot/refill.ts";
import { sowingAdvice, sowingRuler } from "../../model/advice/pot/sowing.ts";
import { fillingLasts, waterGiven } from "../../model/advice/pot/waterGiven.ts";
import { releaseOf } from "../../model/advice/season/release.ts";
import { seasonProblems } from "../../model/advice/season/season.ts";
import { bedDays } from "../../model/advice/season/seasonDemand.ts";
import { bedWeather, seasonSupply, supplyYears } from "../../model/advice/season/seasonSupply.ts";
import type { Problem } from "../../model/flow/problem.ts";
import type { Run } from "../../model/flow/run.ts";
import { simulateToEnd } from "../../model/flow/simulate.ts";
import type { Plan } from "../../model/plan/plan.ts";
import { buildPot, potLitres } from "../../model/pot/buildPot.ts";
import { planToProblem } from "../../model/problems/bareProblem.ts";
import { answerOf } from "../../model/problems/problemFile.ts";
import { weatherYears } from "../../model/weather/generator.ts";

/** What must not be; a run that takes too long is found by the clock outside. */
export type FindingKind = "crash" | "failed" | "not a number" | "balance" | "too wet";

export interface Finding {
  kind: FindingKind;
  /** In words, with the figures. */
  what: string;
}

/** Something worked out for a plan: a run, or what is read from several. */
export interface Trial {
  name: string;
  work(): Finding[];
}

/** In turn: the next one may rest on what those before it gave. */
export function trialsOf(plan: Plan): Trial[] {
  const seasons: Record<string, Run> = {};
  const season = seasonProblems(plan);
  const seasonRun = ([name, problem]: [string, Problem]): Trial => ({
    name: `season, ${name}`,
    work: () =>
      tried(problem, (run) => {
        seasons[name] = run;
      }),
  });
  return [
    { name: "bare", work: () => tried(planToProblem(plan), (run) => bareAnswers(plan, run)) },
    { name: "living", work: () => tried(watchedProblem(plan), (run) => livingAnswers(plan, run)) },
    ...Object.entries(season).map(seasonRun),
    {
      name: "season",
      work: () =>
        Object.keys(seasons).length < Object.keys(season).length ? [] : answered(() => supplied(plan, seasons)),
    },
  ];
}

const bareAnswers = (plan: Plan, run: Run) => ({
  answer: answerOf(run),
  sowing: sowingAdvice(plan, run),
  ruler: sowingRuler(plan, run, [0, 10, 40]),
  given: waterGiven(plan, run),
  lasts: fillingLasts(plan, run, potLitres(plan.pot)),
});

const livingAnswers = (plan: Plan, run: Run) => ({
  answer: answerOf(run),
  watched: watchedOutcome(plan, run),
  given: waterGiven(plan, run),
});

/** The bed asks its roof and tanks for water through two years. */
function supplied(plan: Plan, runs: Readonly<Record<string, Run>>) {
  const release = releaseOf(plan, runs);
  const weather = bedWeather(plan, weatherYears(plan.weather.months, { years: 2, seed: 1 }));
  const days = bedDays(plan, release, weather);
  const supply = seasonSupply(plan, { weather, days, pots: 10 });
  return { release, days, supply, years: supplyYears(supply) };
}

function tried(problem: Problem, read: (run: Run) => unknown): Finding[] {
  const live: Problem = { ...problem, accuracy: "live" };
  return caught(() => {
    const run = simulateToEnd(live);
    const { trouble, balanceError } = run;
    return [
      ...notNumbers({ run }),
      ...tooWet(live, run),
      ...(trouble ? [failed(trouble)] : [...unbalanced(balanceError), ...answered(() => read(run))]),
    ];
  });
}

/** Answers must be read without a crash, and be numbers. */
const answered = (read: () => unknown): Finding[] => caught(() => notNumbers({ answer: read() }));

function caught(work: () => Finding[]): Finding[] {
  try {
    return work();
  } catch (error) {
    const [, line = ""] = (error instanceof Error && error.stack?.match(/\n\s*(at .*)/)) || [];
    return [{ kind: "crash", what: `${error} ${line.replace(/[^ (]*\/(?=model\/|tests\/)/, "")}`.trim() }];
  }
}

function failed({ reason, day, step, place: { r, d }, change }: NonNullable<Run["trouble"]>): Finding {
  const where = `radius ${r.toFixed(1)}, depth ${d.toFixed(1)} cm`;
  return { kind: "failed", what: `${reason}; day ${day.toPrecision(4)}, step ${step}, ${where}; change: ${change}` };
}

/** Share of the water moved. */
const MOST_BALANCE_ERROR = 1e-6;

const unbalanced = (error: number): Finding[] =>
  error < MOST_BALANCE_ERROR ? [] : [{ kind: "balance", what: `balance error ${error.toExponential(1)}` }];

/** Where in some data the first number stands that is none. */
export function notNumbers(data: unknown): Finding[] {
  const path = badPath(data);
  return path === undefined ? [] : [{ kind: "not a number", what: path.slice(1) }];
}

function badPath(value: unknown): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : ` is ${value}`;
  if (typeof value !== "object" || value === null) return undefined;
  if (ArrayBuffer.isView(value) && (value as Float64Array).every(Number.isFinite)) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const path = badPath(inner);
    if (path !== undefined) return `.${key}${path}`;
  }
  return undefined;
}

/** Above the hydrostatic head, cm. */
const MOST_EXCESS = 1;

/**
 * Water flows from high to low total head h − d, and roots and air only take it: so nowhere is that head higher than the
 * highest of the start, of the water in the pot (−dw) and, in rain, of the surface (0).
 */
export function tooWet({ startHead, filling, pot, weather }: Problem, { frames, grid }: Run): Finding[] {
  const level = filling.kind === "held" ? filling.levelDepth : buildPot(pot).fullDepth;
  const rain = weather.some(({ rain }) => rain > 0) ? 0 : Number.NEGATIVE_INFINITY;
  const highest = Math.max(startHead, -level, rain);
  const depths = depthsOf(grid);
  let worst = { excess: MOST_EXCESS, what: "" };
  for (const { day, h } of frames)
    for (const [cell, head] of h.entries()) {
      const depth = depths[cell]!;
      const excess = head - depth - highest;
      const what = () => `${excess.toFixed(1)} cm above hydrostatic, day ${day}, depth ${depth.toFixed(1)} cm`;
      if (excess > worst.excess) worst = { excess, what: what() };
    }
  return worst.what === "" ? [] : [{ kind: "too wet", what: worst.what }];
}

/** Of each cell the deepest centre of its rows, cm: slivers by the pot belong to a cell above or below. */
function depthsOf({ rEdges, dCentre, cellAt, V }: Run["grid"]): Float64Array {
  const depths = new Float64Array(V.length);
  for (const [k, cell] of cellAt.entries())
    if (cell >= 0)
      depths[cell] = Math.max(depths[cell]!, dCentre[Math.floor(k / (rEdges.length - 1)) % dCentre.length]!);
  return depths;
}
