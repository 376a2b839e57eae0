import { faultLines } from "../../../model/public/plan.ts";
import { buildNotebooks } from "../build.ts";
import { serveNotebooks } from "../serve.ts";
import type { StatusLine } from "../terminal.ts";
import { isFinished, soilAnswers, waterAnswer } from "./answers.ts";
import { startHelp } from "./help.ts";
import { readStart } from "./options.ts";
import { startReport } from "./report.ts";
import type { Solve } from "./solverThreads.ts";

const EXIT = { done: 0, unfinished: 1, badInput: 2 };

/** Answers the plan on standard output, then serves the notebooks unless told not to; gives the exit code. */
export async function start(args: string[], { status, solve }: { status: StatusLine; solve: Solve }): Promise<number> {
  if (args.includes("--help")) return say(startHelp(), EXIT.done);
  const read = await readStart(args);
  if (!read.ok) {
    process.stderr.write(`This cannot be used:\n${faultLines(read.faults)}\n`);
    return EXIT.badInput;
  }
  const { plan, isInvented, printOnly, port } = read.value;
  const soils = soilAnswers(plan, solve, status).then((answers) => {
    status.show("Working out the season ...");
    return answers;
  });
  const [answers, water] = await Promise.all([soils, waterAnswer(plan, solve)]);
  status.erase();
  const code = say(
    startReport(plan, { answers, water, isInvented }),
    answers.every(isFinished) ? EXIT.done : EXIT.unfinished,
  );
  if (code === EXIT.done && !printOnly) await serve(port, status);
  return code;
}

function say(text: string, code: number): number {
  process.stdout.write(text);
  return code;
}

async function serve(port: number, status: StatusLine) {
  await buildNotebooks({ onStart: () => status.show("Building the notebooks ...") });
  const url = await serveNotebooks(port);
  status.erase();
  const taken = new URL(url).port === String(port) ? "" : `Port ${port} is taken; the next free one is used.\n`;
  say(`\n${taken}To look closer, open the notebooks in a browser: ${url}\nCtrl-C ends this.\n`, EXIT.done);
}
