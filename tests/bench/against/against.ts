/** `npm run bench -- --against PATH`: this solver beside another program, or beside another checkout of this project. */
import { accessSync, constants, statSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import type { Run } from "../../../model/public/flow.ts";
import { MEMBERS } from "../ensembleFigures.ts";
import { type Answered, filedSections, livingSections, type Section, sharedRuns } from "./cases.ts";
import { type Checkout, checkoutSide, NoComparison } from "./checkout.ts";
import { compareCase, type Effort, type Row, type Side } from "./compare.ts";
import { inTurns, type Pair, timesOf } from "./inTurns.ts";
import type { ComparedSection } from "./print.ts";
import { ownProgramSide, programSide } from "./program.ts";

export interface Comparison {
  /** An executable program, or the folder of a checkout. */
  path: string;
  all: boolean;
  rounds: number | undefined;
  /** One section's name; all of them where undefined. */
  only: string | undefined;
}

type Tell = (what: string) => void;

/** A program's process starts cold each time: nothing is to be warmed up, and each round is dear. */
const EFFORT = { checkout: { rounds: 12, warmUp: 2 }, program: { rounds: 4, warmUp: 0 } };

/** Of the rounds, for long sections and ensembles. */
const quarter = (rounds: number) => Math.ceil(rounds / 4);

/** Section by section, as each is done. */
export function comparedSections(wish: Comparison, tell: Tell): AsyncGenerator<ComparedSection> {
  const path = resolve(wish.path);
  const kind = statSync(path, { throwIfNoEntry: false });
  if (!kind) throw new NoComparison(`There is nothing at ${path}.`);
  if (kind.isFile() && !mayRun(path)) throw new NoComparison(`${path} is not a program that may be run (chmod +x).`);
  return kind.isDirectory() ? besideCheckout(path, wish, tell) : besideProgram(path, wish, tell);
}

function mayRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

const ROOT = fileURLToPath(new URL("../../../", import.meta.url));
const ENSEMBLE = "ensemble";
const GRIDS = ["kept", "fresh"] as const;

async function* besideCheckout(folder: string, { all, only, rounds }: Comparison, tell: Tell) {
  const filed = filedSections(all, GRIDS);
  const sections: Section<Run>[] = [...filed.slice(0, -1), ...livingSections(), ...filed.slice(-1)];
  refuseUnknown(only, [...sections.map(({ name }) => name), ENSEMBLE]);
  const sides = { ours: await checkoutSide(ROOT), theirs: await checkoutSide(folder) };
  const effort = { ...EFFORT.checkout, ...(rounds && { rounds }) };
  tell("warming up");
  for (const each of sharedRuns(GRIDS)) await compareCase(sides, each, { rounds: 1, warmUp: 3 });
  yield* eachOf(sections, sides, { only, effort, tell });
  if (only === undefined || only === ENSEMBLE) yield await ensembles(sides, quarter(effort.rounds), tell);
}

async function* besideProgram(program: string, { all, only, rounds }: Comparison, tell: Tell) {
  const sections = filedSections(all, ["fresh"]);
  refuseUnknown(
    only,
    sections.map(({ name }) => name),
  );
  const sides = { ours: ownProgramSide(), theirs: programSide([program]) };
  try {
    yield* eachOf(sections, sides, { only, effort: { ...EFFORT.program, ...(rounds && { rounds }) }, tell });
  } finally {
    for (const { end } of Object.values(sides)) end();
  }
}

function refuseUnknown(only: string | undefined, names: string[]): void {
  if (only !== undefined && !names.includes(only))
    throw new NoComparison(`--only is "${only}"; it must be one of ${names.join(", ")} here.`);
}

interface Course {
  only: string | undefined;
  effort: Effort;
  tell: Tell;
}

async function* eachOf<R extends Answered>(
  sections: Section<R>[],
  sides: Pair<Side<R>>,
  { only, effort, tell }: Course,
): AsyncGenerator<ComparedSection> {
  for (const { cases, ...about } of sections.filter(({ name }) => only === undefined || name === only)) {
    const own = about.isLong ? { ...effort, rounds: quarter(effort.rounds) } : effort;
    const rows: Row[] = [];
    for (const each of cases()) {
      tell(`${about.name}: ${each.name}, ${each.problem.accuracy}`);
      rows.push(await compareCase(sides, each, own));
    }
    yield { ...about, rows };
  }
}

/** Once more before those that count, since threads and code get quicker. */
async function ensembles({ ours, theirs }: Pair<Checkout>, rounds: number, tell: Tell): Promise<ComparedSection> {
  tell("ensembles");
  const about = { name: ENSEMBLE, heading: "An ensemble of soils called loam, start of the threads included" };
  const work = { ours: ours.ensemble, theirs: theirs.ensemble };
  const given = (await inTurns(rounds + 1, work)).slice(1);
  const row = (name: string, key: "firstMilliseconds" | "allMilliseconds" | "cpuMilliseconds"): Row => ({
    name,
    setting: "live",
    grid: "",
    times: timesOf(given.map((pair) => ({ ours: pair.ours[key], theirs: pair.theirs[key] }))),
  });
  const rows = [
    row("first members, by the clock", "firstMilliseconds"),
    row(`all ${MEMBERS}, by the clock`, "allMilliseconds"),
    row(`all ${MEMBERS}, processors' time`, "cpuMilliseconds"),
  ];
  return { ...about, isLong: false, rows };
}
