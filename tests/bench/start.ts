/** `npm run bench:start`: how long a person waits after `npm start`. Ends with 1 where it takes longer than it must. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { rmSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { join } from "node:path";
import { distFolder } from "../../notebooks/commands/build.ts";

/** Seconds from the command to the address, on idle cores. */
const MUST = { first: 15, later: 5 };

/** What a person sees, in the order in which it comes. */
const SIGNS = { words: /Working out/, answer: /Before you rely on it/, address: /open the notebooks in a browser/ };

type Waits = { [sign in keyof typeof SIGNS]: number };

/** Seconds to each sign; then the command is ended. */
async function waits(env: NodeJS.ProcessEnv = {}): Promise<Waits> {
  const began = performance.now();
  const child = spawn("npm", ["start", "--silent"], {
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const ended = once(child, "close");
  const until = (sign: RegExp) =>
    new Promise<number>((resolve, reject) => {
      let text = "";
      const hear = (chunk: Buffer) => {
        text += chunk;
        if (sign.test(text)) resolve((performance.now() - began) / 1000);
      };
      child.stdout.on("data", hear);
      child.stderr.on("data", hear);
      ended.then(() => reject(new Error(`It ended before ${sign} came:\n${text}`)));
    });
  const { words, answer, address } = SIGNS;
  const [toWords, toAnswer, toAddress] = await Promise.all([until(words), until(answer), until(address)]);
  child.kill("SIGINT");
  await ended;
  return { words: toWords, answer: toAnswer, address: toAddress };
}

/** Where pages are still to be built, and nothing has been compiled before. */
async function firstWaits(): Promise<Waits> {
  rmSync(join(distFolder, "index.html"), { force: true });
  return waits({ TSX_DISABLE_CACHE: "1" });
}

function isInTime(name: string, { words, answer, address }: Waits, must: number): boolean {
  const figures = Object.entries({ "first words": words, answer, address });
  const text = figures.map(([sign, seconds]) => `${sign} ${seconds.toFixed(1)} s`).join(", ");
  console.log(`${name.padEnd(12)} ${text} (must: ${must} s)`);
  return address <= must;
}

console.log(`${availableParallelism()} cores; load before: ${loadavg()[0]?.toFixed(1)}`);
const inTime = [
  isInTime("first start", await firstWaits(), MUST.first),
  isInTime("later start", await waits(), MUST.later),
];
process.exitCode = inTime.every(Boolean) ? 0 : 1;
