import { writeFile } from "node:fs/promises";
import {
  drawMembers,
  ensembleSowingDay,
  type Outcome,
  serializePart,
  shardMembers,
} from "../../../model/public/ensemble.ts";
import { planToProblem, simulateToEnd } from "../../../model/public/flow.ts";
import { type Fault, faultLines, type Plan } from "../../../model/public/plan.ts";
import type { EnsembleOutcomes } from "../../runtime/cells.ts";
import { requireFinished } from "../../runtime/runs.ts";
import type { EnsembleProgress } from "../../solving/memberQueue.ts";
import { threadQueue } from "../../solving/threads.ts";
import { words } from "../../words/words.ts";
import type { StatusLine } from "../terminal.ts";
import { bandHelp } from "./help.ts";
import { type BandAsk, readBand } from "./options.ts";
import { bandReport } from "./report.ts";

export const EXIT = { done: 0, unfinished: 1, badInput: 2 };

/** Tells the band of a plan's soils on standard output, so far where it is stopped; gives the exit code. */
export async function band(args: string[], status: StatusLine, stop: AbortSignal): Promise<number> {
  if (args.includes("--help")) return say(bandHelp(), EXIT.done);
  const read = await readBand(args);
  if (!read.ok) return refuse(read.faults);
  const { plan, typed, drawing, shard, out } = read.value;
  const { sowingDay, outcomes, isDone, total } = await gather(read.value, status, stop);
  status.erase();
  say(bandReport({ plan, seed: drawing.seed, sowingDay, outcomes, total }), EXIT.done);
  if (out === undefined) return exitCode(outcomes);
  if (!isDone) return complain(`Stopped before all of it was worked out, so ${out} was not written.`);
  await writeFile(out, serializePart({ version: 1, plan: typed, drawing, sowingDay, shard, outcomes: [...outcomes] }));
  return say(
    `\nWritten to ${out}${shard.n > 1 ? `, part ${shard.i} of ${shard.n}; npm run merge joins the parts` : ""}.\n`,
    exitCode(outcomes),
  );
}

/** None solved though some were tried: there is no band. */
export const exitCode = (outcomes: readonly Outcome[]): number =>
  outcomes.length > 0 && outcomes.every(({ trouble }) => trouble !== null) ? EXIT.unfinished : EXIT.done;

export function say(text: string, code: number): number {
  process.stdout.write(text);
  return code;
}

export function refuse(faults: readonly Fault[]): number {
  process.stderr.write(`This cannot be used:\n${faultLines(faults)}\n`);
  return EXIT.badInput;
}

function complain(text: string): number {
  process.stderr.write(`${text}\n`);
  return EXIT.unfinished;
}

/** The plan's own run at the quick setting, as on the page; none where the plan names a day. */
function sowingDayOf(plan: Plan): number {
  if (plan.sowingDay !== null) return plan.sowingDay;
  const run = simulateToEnd(planToProblem(plan, { accuracy: "live" }));
  requireFinished({ own: run });
  return ensembleSowingDay(plan, run);
}

/** The threads get ready while the plan's own run is worked out here. */
async function gather({ plan, drawing, shard }: BandAsk, status: StatusLine, stop: AbortSignal) {
  const onProgress = (now: EnsembleProgress | null) => {
    if (!now?.count) return status.show("Getting ready ...");
    status.show("Working out soils ...", ` ${words.counted(now.count, now.total)}`);
  };
  const queue = threadQueue({ onlyDone: true, onProgress });
  stop.addEventListener("abort", queue.stop);
  try {
    queue.prepare();
    const sowingDay = sowingDayOf(plan);
    const members = shardMembers(drawMembers(plan, drawing), shard);
    const ask = { of: null, plan, members, task: { kind: "sowing" as const, sowingDay } };
    const gathered = await new Promise<EnsembleOutcomes<unknown>>((deliver, fail) => {
      queue.ask(0, ask, { deliver, fail });
      // Nobody heard it during the plan's own run.
      if (stop.aborted) queue.stop();
    });
    return { sowingDay, ...(gathered as EnsembleOutcomes<unknown, typeof ask.task>) };
  } finally {
    queue.end();
  }
}
