/**
 * `npm run bench`: what the solver costs and how far off it is. Ends with 1 when an error is above its bound, whatever
 * the time.
 */
import { parseArgs } from "node:util";
import { comparedSections } from "./against/against.ts";
import { NoComparison } from "./against/checkout.ts";
import { type ComparedSection, printCompared } from "./against/print.ts";
import { failuresOf, figuresOf, type Wish } from "./figures.ts";
import { printFigures } from "./print.ts";

const HELP = `npm run bench -- [--all] [--browser] [--json]

Prints, with the number of cells and time steps, and medians of five warm runs:
  - the test problem 'buried cylinder' in sand, loam and clay at each setting, with the largest error over five times
    against the known answers;
  - the error of the reference setting, estimated by solving again with cells twice as large;
  - other pots: their time beside the cylinder's;
  - a living bed: its time beside that of the same pot and ground without life, and its errors against the reference;
  - evaporation of its first day, uptake until the third, and the spacing that live runs find;
  - pots all about, solved in three dimensions: time, memory, errors, and how far off the circle of the same area is;
  - a sweep over every texture class, dry and moist, kept full and refilled, cylinder, tapered pot and jar, with the
    largest errors of the live and the standard setting against the reference;
  - the coarse answer of the demo bed, as its first notebook asks for it;
  - an ensemble of 200 soils called loam: when its first members are in, and all.

  --all      every class with every start, filling and pot (144 cases, about six minutes)
  --browser  also the time of the same runs in a browser's worker
  --json     the figures as one JSON object on standard output

Exit code 1 when an error is above its bound, whatever the time.

npm run bench -- --against PATH [--all] [--rounds N] [--only NAME] [--json]

Solves the same cases with another solver in turns, run by run, and prints for each the least time of both, the ratio
ours over theirs (of the least times, and the median of the rounds with the range of their middle half), the largest
difference of the two answers, and the error of each where a better answer is known. PATH is one of two:
  - a folder with another checkout of this project, installed: its code runs in this process beside ours, and 'ms' is
    the processors' time, in which other programs hardly count. Sections: shared (the test problem, with a kept and with
    a fresh grid), pots, living, season, sweep, ensemble;
  - a program, called as PROGRAM FILE.json, which prints one JSON object as 'npm run solve' does. Both run as processes
    of their own; 'ms' is the solve alone, as the two answers tell it, 'process' all of the process, 'ours warm' our
    solve in a process that has solved before. Sections: shared, pots, sweep.

  --rounds N   how often each case is solved by either (12, with a program 4); a quarter of it for sweep and ensemble
  --only NAME  one section alone
  --all        the sweep over 144 cases, not 24
  --json       all as one JSON list

Exit code 1 when a case has no whole answer from either side.
`;

try {
  const { values } = parseArgs({
    options: {
      all: { type: "boolean", default: false },
      browser: { type: "boolean", default: false },
      against: { type: "string" },
      rounds: { type: "string" },
      only: { type: "string" },
      json: { type: "boolean", default: false },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) process.stdout.write(HELP);
  else if (values.against === undefined) await bench(values);
  else await compare({ ...values, path: values.against });
} catch (error) {
  if (!(error instanceof NoComparison || (error instanceof TypeError && "code" in error))) throw error;
  process.stderr.write(`${error.message}\n${error instanceof NoComparison ? "" : `\n${HELP}`}`);
  process.exitCode = 2;
}

function tell(what: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\x1b[K${what}`);
}

interface Typed {
  browser: boolean;
  json: boolean;
  rounds?: string;
  only?: string;
}

async function compare({ path, all, json, browser, rounds, only }: Typed & { path: string; all: boolean }) {
  if (browser) throw new NoComparison("--browser does not go with --against.");
  const sections: ComparedSection[] = [];
  for await (const section of comparedSections({ path, all, only, rounds: roundsIn(rounds) }, tell)) {
    tell("");
    sections.push(section);
    if (!json) printCompared(section);
  }
  if (json) process.stdout.write(`${JSON.stringify(sections, null, 2)}\n`);
  process.exitCode = sections.some(({ rows }) => rows.some(({ trouble }) => trouble)) ? 1 : 0;
}

function roundsIn(typed: string | undefined): number | undefined {
  if (typed === undefined || /^[1-9]\d{0,3}$/.test(typed)) return typed === undefined ? undefined : Number(typed);
  throw new NoComparison(`--rounds is "${typed}"; it must be a whole number from 1 to 9999.`);
}

async function bench({ json, rounds, only, ...wish }: Wish & Typed): Promise<void> {
  if (rounds !== undefined || only !== undefined)
    throw new NoComparison("--rounds and --only go with --against alone.");
  const figures = await figuresOf(wish, tell);
  tell("");
  if (json) process.stdout.write(`${JSON.stringify(figures, null, 2)}\n`);
  else printFigures(figures);
  const failures = failuresOf(figures);
  for (const failure of failures) process.stderr.write(`above its bound: ${failure}\n`);
  process.exitCode = failures.length > 0 ? 1 : 0;
}
