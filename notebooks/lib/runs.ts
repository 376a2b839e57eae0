/** Reading a run. */
import { bisectLeft, least } from "d3-array";
import type { Frame, Run } from "../../model/index.ts";

/** A value of the run's history on a day, before a refill on it; between two steps in proportion; the last one known after the end. */
export function onDay({ history }: Run, values: readonly number[], day: number): number {
  const { day: days } = history;
  const after = Math.min(Math.max(bisectLeft(days, day), 1), days.length - 1);
  const [from, to] = [days[after - 1]!, days[after]!];
  const share = Math.min(Math.max((day - from) / (to - from), 0), 1);
  return values[after - 1]! + share * (values[after]! - values[after - 1]!);
}

/** The kept field nearest to a day. */
export const frameOnDay = ({ frames }: Run, day: number): Frame => least(frames, (frame) => Math.abs(frame.day - day))!;

/** Undefined when the run reached its end; else what went wrong, in words. */
export function troubleOf({ status, trouble }: Run): string | undefined {
  if (status === "finished") return undefined;
  const place = trouble && ` (${trouble.reason}, day ${trouble.day.toFixed(2)}, step ${trouble.step})`;
  return `The flow of water could not be worked out to the end${place ?? ""}.`;
}
