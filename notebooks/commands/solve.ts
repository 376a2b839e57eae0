import { readFile } from "node:fs/promises";
import { setImmediate } from "node:timers/promises";
import { pathToFileURL } from "node:url";
import { type Answer, answerOf, type Problem, type Progress, readProblem, simulate } from "../../model/public/flow.ts";
import { faultLines, figures } from "../../model/public/plan.ts";

const HELP = `Solves one problem file and prints the answer.

  npm run --silent solve -- FILE.json

Standard output gets one JSON object and nothing else; messages go to standard error. (Without --silent npm itself
prints two lines about the script first.) Ctrl-C stops the run and prints what was reached. In a row without an edge,
radiusReason and depthReason say why.

Exit code: 0 finished, 1 the run could not finish or was stopped, 2 bad input.
The file's form: reference-data/schemas/problem.schema.json. Lengths are in cm, times in days.
`;

const EXIT = { finished: 0, unfinished: 1, badInput: 2 };

/** In ms: how long the process may go without listening for Ctrl-C, and how often it tells where it stands. */
const LISTEN_EVERY = 50;
const TELL_EVERY = 1000;

/** What is printed when the solver itself broke down: no number that might look like an answer. */
type Breakdown = {
  status: "failed";
  reason: string;
  day: number;
  step: number;
  place: null;
  change?: string;
  rows: [];
};

/** Drives a run to its end, or stops it; between steps it tells its progress and lets the process hear signals. */
async function drive(run: ReturnType<typeof simulate>, isStopped: () => boolean): Promise<Answer | Breakdown> {
  const listen = atMostEvery(LISTEN_EVERY, () => setImmediate());
  const tell = atMostEvery(TELL_EVERY, tellProgress);
  let reached = { day: 0, step: 0 };
  try {
    for (;;) {
      const next = run.next(isStopped() ? "stop" : undefined);
      if (next.done) return answerOf(next.value);
      reached = { day: next.value.day, step: next.value.step };
      tell(next.value);
      await listen();
    }
  } catch (error) {
    return { status: "failed", reason: String(error), ...reached, place: null, rows: [] };
  }
}

function tellProgress({ day, lastDay, step }: Progress): void {
  process.stderr.write(`day ${figures(day)} of ${lastDay}, step ${step}\n`);
}

function atMostEvery<A extends unknown[], R>(ms: number, act: (...args: A) => R): (...args: A) => R | undefined {
  let last = Date.now();
  return (...args) => {
    if (Date.now() - last < ms) return undefined;
    last = Date.now();
    return act(...args);
  };
}

async function printSolution(problem: Problem): Promise<number> {
  let isStopped = false;
  process.on("SIGINT", () => {
    isStopped = true;
  });
  const answer = await drive(simulate(problem), () => isStopped);
  process.stdout.write(`${JSON.stringify(answer, null, 2)}\n`);
  const change = answer.change === undefined ? "" : `. Try ${answer.change} first.`;
  if (answer.status === "failed") process.stderr.write(`The run could not finish: ${answer.reason}${change}\n`);
  return answer.status === "finished" ? EXIT.finished : EXIT.unfinished;
}

function refuse(message: string): number {
  process.stderr.write(`${message}\n`);
  return EXIT.badInput;
}

/** Solves the one problem file that `args` name, prints the answer, and gives the exit code. */
export async function solve(args: string[]): Promise<number> {
  const [file, ...others] = args;
  if (args.includes("--help")) {
    process.stderr.write(HELP);
    return EXIT.finished;
  }
  if (file === undefined || others.length > 0)
    return refuse(`Name one problem file (${args.length} given).\n\n${HELP}`);
  const text = await readFile(file, "utf8").catch((error: Error) => error);
  if (text instanceof Error) return refuse(`Cannot read ${file}: ${text.message}`);
  const problem = readProblem(text);
  return problem.ok ? printSolution(problem.value) : refuse(`${file} cannot be solved:\n${faultLines(problem.faults)}`);
}

// The exit code is set, not called for: a pipe may still be taking the answer.
if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
  process.exitCode = await solve(process.argv.slice(2));
