/** Runs in a browser's worker: gets problems, gives the median time of each. */
import type { Problem } from "../../model/flow/problem.ts";
import { timed } from "./measure.ts";

addEventListener("message", ({ data }: MessageEvent<Problem[]>) => {
  postMessage(data.map((problem) => timed(problem).milliseconds));
});
