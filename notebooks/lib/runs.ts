/** Reading a run. */
import { least } from "d3-array";
import type { Frame, Run } from "../../model/index.ts";
import { sentenceCase } from "./words.ts";

/** The kept field nearest to a day. */
export const frameOnDay = ({ frames }: Run, day: number): Frame => least(frames, (frame) => Math.abs(frame.day - day))!;

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
  return `The flow of water could not be worked out to the end${place ?? ""}.`;
}
