import {
  bedDays,
  bedWeather,
  bedWithSupply,
  type FilledLine,
  type FillingLasts,
  filledLine,
  fillingLasts,
  MOST_LINED_POTS,
  type Needs,
  needsOf,
  type Outlook,
  outlookOf,
  releaseOf,
  type SpacingAdvice,
  searchSpacing,
  seasonProblems,
  WANTED_SHARE,
  watchedProblem,
  yearsFor,
} from "../../../model/public/advice.ts";
import { type Problem, type Progress, planToProblem, potLitres, type Run } from "../../../model/public/flow.ts";
import { type Plan, potPlacesOf } from "../../../model/public/plan.ts";
import { comparedSoils, inSoil, isCompared } from "../../notebook/comparedSoils.ts";
import { toEnd } from "../../runtime/toEnd.ts";
import type { StatusLine } from "../terminal.ts";
import type { Solve } from "./solverThreads.ts";

/** What one soil does under the plan. */
export interface SoilAnswer {
  name: string;
  run: Run;
  /** The pot filled once and left alone. */
  filledOnce: Run;
  /** With plants that drink: refilled for two weeks, then left. */
  planted: Run;
  /** How far apart pots may stand; null where that could not be worked out. */
  apart: SpacingAdvice | null;
}

export const isFinished = ({ run, filledOnce, planted }: SoilAnswer): boolean =>
  [run, filledOnce, planted].every(({ status }) => status === "finished");

/** Roof, tank and line of the plan, in its own soil. */
export interface WaterAnswer {
  outlook: Outlook;
  needs: Needs;
  /** null where there are more pots than one line is worked out for. */
  line: FilledLine | null;
}

/** null where a run did not come to its end. Says nothing meanwhile: it is worked out beside the soils. */
export async function waterAnswer(plan: Plan, solve: Solve): Promise<WaterAnswer | null> {
  const solved = Object.entries(seasonProblems(plan)).map(
    async ([name, problem]) => [name, await solve({ ...problem, accuracy: "live" }, () => {})] as const,
  );
  const runs = Object.fromEntries(await Promise.all(solved));
  if (Object.values(runs).some((run) => run.status !== "finished")) return null;
  const release = releaseOf(plan, runs);
  const { years, isRecorded } = yearsFor(plan.weather);
  const weather = bedWeather(plan, years);
  const pots = potPlacesOf(plan).length;
  const asked = { weather, days: bedDays(plan, release, weather), pots };
  const bed = bedWithSupply({ plan, release, asked }, plan);
  return {
    outlook: outlookOf(bed, isRecorded),
    needs: toEnd(needsOf(bed, WANTED_SHARE)),
    line: pots > MOST_LINED_POTS ? null : filledLine(plan),
  };
}

function showDay(status: StatusLine, task: string, what: string, { day, lastDay }: Progress) {
  status.show(task, ` ${what}, day ${Math.floor(day)} of ${lastDay}`);
}

/** Sand, loam and clay side by side, and the plan's own soil where it is another. */
export async function soilAnswers(plan: Plan, solve: Solve, status: StatusLine): Promise<SoilAnswer[]> {
  const soils = soilsOf(plan);
  const answers: SoilAnswer[] = [];
  for (const { name, bed } of soils) {
    const task = `Working out ${name} (${answers.length + 1} of ${soils.length}) ...`;
    status.show(task);
    answers.push(await soilAnswer(name, bed, solve, (what) => (progress) => showDay(status, task, what, progress)));
  }
  return answers;
}

/** The search goes first: its runs follow one after another. */
async function soilAnswer(
  name: string,
  bed: Plan,
  solve: Solve,
  tell: (what: string) => (progress: Progress) => void,
): Promise<SoilAnswer> {
  const [apart, run, filledOnce, planted] = await Promise.all([
    searched(bed, solve, tell("how far apart pots go")),
    solve(planToProblem(bed), tell("how water spreads")),
    solve(onceProblem(bed), tell("how long a full pot lasts")),
    solve(watchedProblem(bed), tell("what plants take")),
  ]);
  return { name, run, filledOnce, planted, apart };
}

function soilsOf(plan: Plan): { name: string; bed: Plan }[] {
  const isOwn = (name: string) => isCompared(plan) && name === plan.soil.className;
  const compared = comparedSoils.map((name) => ({
    name: isOwn(name) ? `${name} (yours)` : name,
    bed: inSoil(plan, name),
  }));
  return isCompared(plan) ? compared : [...compared, { name: "your soil", bed: plan }];
}

const once = (plan: Plan): Plan => ({ ...plan, filling: { kind: "once" } });

const onceProblem = (plan: Plan): Problem => planToProblem(once(plan), { days: [plan.days] });

/** How long a full pot lasts when nobody fills it again. */
export function fullPotLasts(plan: Plan, { filledOnce }: SoilAnswer): FillingLasts {
  return fillingLasts(once(plan), filledOnce, potLitres(plan.pot));
}

async function searched(plan: Plan, ...[solve, tell]: [Solve, Parameters<Solve>[1]]): Promise<SpacingAdvice | null> {
  const search = searchSpacing(plan);
  for (let next = search.next(); ; ) {
    if (next.done) return next.value;
    const run = await solve(next.value, tell);
    if (run.status !== "finished") return null;
    next = search.next(run);
  }
}
