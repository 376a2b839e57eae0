/** `npm run band`. Ctrl-C gives the band so far; before there can be one, and the second time, it ends at once. */
import { statusLine } from "../terminal.ts";

const status = statusLine(process.stderr);
const stop = new AbortController();
let isAsked = false;

process.on("SIGINT", () => {
  if (isAsked && !stop.signal.aborted) return stop.abort();
  status.erase();
  process.exit(1);
});

try {
  const { band } = await import("./command.ts");
  isAsked = true;
  process.exitCode = await band(process.argv.slice(2), status, stop.signal);
} catch (error) {
  status.erase();
  process.stderr.write(`This could not be done: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
