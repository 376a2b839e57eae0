import { readFile } from "node:fs/promises";
import { setImmediate } from "node:timers/promises";
import { faultLines } from "./faults.ts";
import type { Problem } from "./flow/problem.ts";
import type { Progress, Run } from "./flow/run.ts";
import { simulate } from "./flow/simulate.ts";
import { answerOf, readProblem } from "./problemFile.ts";

const HELP = `Solves one problem file and prints the answer.

  npm run --silent solve -- FILE.json

Standard output gets one JSON object and nothing else; messages go to standard error. (Without --silent npm itself
prints two lines about the script first.) Ctrl-C stops the run and prints what there is.

Exit code: 0 finished, 1 the run could not finish or was stopped, 2 bad input.
The file's form: reference-data/schemas/problem.schema.json. Lengths are in cm, times in days.
`;

const EXIT = { finished: 0, unfinished: 1, badInput: 2 };

/** Longest time in ms without listening for Ctrl-C. */
const LISTEN_EVERY = 50;

/** Drives a run to its end, or stops it; between steps it lets the process hear signals. */
async function drive(run: Generator<Progress, Run>, isStopped: () => boolean): Promise<Run> {
  let heard = Date.now();
  for (;;) {
    const next = run.next(isStopped() ? "stop" : undefined);
    if (next.done) return next.value;
    if (Date.now() - heard < LISTEN_EVERY) continue;
    await setImmediate();
    heard = Date.now();
  }
}

async function solve(problem: Problem): Promise<number> {
  let isStopped = false;
  process.on("SIGINT", () => {
    isStopped = true;
  });
  const run = await drive(simulate(problem), () => isStopped);
  process.stdout.write(`${JSON.stringify(answerOf(run), null, 2)}\n`);
  if (run.trouble) process.stderr.write(`The run could not finish: ${run.trouble.reason}\n`);
  return run.status === "finished" ? EXIT.finished : EXIT.unfinished;
}

function refuse(message: string): number {
  process.stderr.write(`${message}\n`);
  return EXIT.badInput;
}

/** Runs the command with its arguments and gives the exit code. */
async function main(args: string[]): Promise<number> {
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
  return problem.ok ? solve(problem.value) : refuse(`${file} cannot be solved:\n${faultLines(problem.faults)}`);
}

// The exit code is set, not called for: a pipe may still be taking the answer.
process.exitCode = await main(process.argv.slice(2));
