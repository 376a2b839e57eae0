/** What filled pots give through a season, read from its runs. */
import { bisectRight } from "d3-array";
import type { Month } from "../../calendar/months.ts";
import type { Run } from "../../flow/run.ts";
import { entry, present } from "../../input/lists.ts";
import type { PottedGround } from "../../plan/planPart.ts";
import { onDay } from "../pot/history.ts";
import { metShare } from "../pot/refill.ts";
import { COUNTED_FROM, NO_THIRST, RUN_DAYS, runMonths } from "./season.ts";

/** What leaves a filled pot by the age of the plants about it: litres a day `base + perLitre × the litres that they lack`. */
export interface Release {
  /** Given to ground in which nothing is thirsty: what sinks away. */
  base: number;
  /** By increasing age. */
  knots: { month: Month; age: number; perLitre: number; met: number; wanted: number; given: number; taken: number }[];
}

/** What a pot gives at every age of the plants, litres a day, from the runs of `seasonProblems`. */
export function releaseOf(plan: PottedGround, runs: Readonly<Record<string, Run>>): Release {
  const runOf = (name: string) => present(runs[name], `run of ${name}`);
  const base = givenDaily(plan, runOf(NO_THIRST));
  const knots = runMonths(plan).map(({ month, age }) => {
    const run = runOf(month);
    const { from, to } = countedDays(plan);
    const daily = (values: number[]) => (onDay(run, values, to) - onDay(run, values, from)) / (to - from);
    const [given, wanted, taken] = [
      givenDaily(plan, run),
      daily(run.history.wantedLitres),
      daily(run.history.uptakeLitres),
    ];
    const perLitre = wanted > 0 ? Math.max(given - base, 0) / wanted : 0;
    return { month, age, perLitre, met: metShare(run, from, to), wanted, given, taken };
  });
  return { base, knots };
}

/** Through the wall, and into the air from a pot without a lid. */
function givenDaily(plan: PottedGround, run: Run): number {
  const { from, to } = countedDays(plan);
  const { seepageLitres, potLossLitres } = run.history;
  const left = (day: number) => onDay(run, seepageLitres, day) + onDay(run, potLossLitres, day);
  return (left(to) - left(from)) / (to - from);
}

/** Whole spans from one refill to the next, after the first days of a run; of a pot filled once all of it. */
function countedDays({ filling }: PottedGround): { from: number; to: number } {
  if (filling.kind === "float") return { from: COUNTED_FROM, to: RUN_DAYS };
  if (filling.kind === "once") return { from: 0, to: RUN_DAYS };
  const cycles = Math.floor(RUN_DAYS / filling.days + 1e-9);
  const first = Math.min(Math.ceil(COUNTED_FROM / filling.days - 1e-9), cycles - 1);
  return cycles === 0
    ? { from: 0, to: RUN_DAYS }
    : { from: Math.max(first, 0) * filling.days, to: cycles * filling.days };
}

/** On a day of the plants' life, by straight lines between the months. */
export function releaseAt({ base, knots }: Release, age: number): { base: number; perLitre: number; met: number } {
  const after = bisectRight(
    knots.map((knot) => knot.age),
    age,
  );
  const [from, to] = [entry(knots, Math.max(after - 1, 0)), entry(knots, Math.min(after, knots.length - 1))];
  const share = to.age > from.age ? Math.min(Math.max((age - from.age) / (to.age - from.age), 0), 1) : 0;
  const mix = (key: "perLitre" | "met") => from[key] + share * (to[key] - from[key]);
  return { base, perLitre: mix("perLitre"), met: mix("met") };
}
