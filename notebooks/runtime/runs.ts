/** Reading a run. */
import { least } from "d3-array";
import type { Accuracy, Frame, Run } from "../../model/public/flow.ts";
import { type PlanPart, present } from "../../model/public/plan.ts";
import { soilName } from "../words/planWords.ts";
import { sentenceCase } from "../words/words.ts";

/** The kept field nearest to a day. */
export const frameOnDay = ({ frames }: Run, day: number): Frame =>
  present(
    least(frames, (frame) => Math.abs(frame.day - day)),
    "kept field of the run",
  );

/** How fine the run of a plan was, and how well its water balance closes. */
export function runSentence(
  plan: PlanPart<"soil" | "bedMix" | "units">,
  { cells, steps, balanceError }: Run,
  accuracy: Accuracy,
): string {
  const kind = accuracy === "live" ? "coarse run" : "run";
  return `This ${kind} for your ${soilName(plan)} used ${cells} rings of soil and ${steps} steps in time; water given, stored and lost agree within ${balanceError.toExponential(0)} of the water moved.`;
}

/** Throws where one of the runs did not come to its end: beyond it, no value of a run means anything. */
export function requireFinished(runs: Readonly<Record<string, Run>>): void {
  for (const [name, run] of Object.entries(runs)) {
    const trouble = troubleOf(run);
    if (trouble) throw new Error(`${name === "own" ? "Your soil" : sentenceCase(name)}: ${trouble}`);
  }
}

/** Undefined when the run reached its end; else what went wrong, in words. */
export function troubleOf({ status, trouble }: Run): string | undefined {
  if (status === "finished") return undefined;
  const place = trouble && ` (${trouble.reason}, day ${trouble.day.toFixed(2)}, step ${trouble.step})`;
  const change = trouble && ` Try ${trouble.change} first.`;
  return `The flow of water could not be worked out to the end${place ?? ""}.${change ?? ""}`;
}
