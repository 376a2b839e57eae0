/** Runs in a browser's worker: gets problems, gives the median time of each once the code is compiled for good. */
import type { Problem } from "../../model/flow/problem.ts";
import { timed } from "./measure.ts";

addEventListener("message", ({ data }: MessageEvent<Problem[]>) => {
  const times = () => data.map((problem) => timed(problem).milliseconds);
  times();
  postMessage(times());
});
