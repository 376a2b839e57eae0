/** `npm start`. Ctrl-C ends it at any moment, so it listens for it before the rest is loaded; threads load beside it. */
import { statusLine } from "../terminal.ts";
import { solverThreads } from "./solverThreads.ts";

const status = statusLine(process.stderr);

process.on("SIGINT", () => {
  status.erase();
  process.exit(0);
});

// Whoever reads the answer may have seen enough of it (a pipe into `head`).
process.stdout.on("error", ({ code }: NodeJS.ErrnoException) => process.exit(code === "EPIPE" ? 0 : 1));

const solvers = solverThreads();

try {
  const { start } = await import("./command.ts");
  process.exitCode = await start(process.argv.slice(2), { status, solve: solvers.solve });
} catch (error) {
  status.erase();
  process.stderr.write(`This could not be done: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
} finally {
  solvers.end();
}
