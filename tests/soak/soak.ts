/** `npm run soak`: random plans, each solved bare, living and as a season. Ends with 1 where what must hold does not. */
import { parseArgs } from "node:util";
import { range } from "d3-array";
import { drawnPlan } from "./drawnPlan.ts";
import { type Found, type Tried, tryPlans } from "./trials.ts";

const HELP = `npm run soak -- [--seed N] [--count M] [--shard i/n] [--only K]

Draws plans by chance over the whole of the plan's schema, and solves each bare, living and as a season, at the live
setting. A plan that is refused is counted, and drawn again where it is at fault. What is found is told with the plan's
number: a crash, a run of more than 10 s of CPU (given up after 20), a number that is none, a water balance that misses by
1e-6 or more, soil wetter than hydrostatic by more than 1 cm, and a run that failed.

  --seed N      another set of plans (1)
  --count M     so many plans (2000)
  --shard i/n   part i of n of them
  --only K      plan K alone; prints it as typed

Ctrl-C ends it after the plan at hand, with the summary so far.
Exit code 1 when any of it is found, save that fewer than 0.5 % of the plans may have a run that failed.
`;

const MOST_FAILED = 0.005;

const whole = (option: string, text: string, least: number): number => {
  if (/^\d+$/.test(text) && Number(text) >= least && Number(text) < 2 ** 32) return Number(text);
  throw new RangeError(`--${option} is "${text}"; it must be a whole number from ${least} on`);
};

function shardOf(text: string): { i: number; n: number } {
  const [i = 0, n = 0] = /^\d+\/\d+$/.test(text) ? text.split("/").map(Number) : [];
  if (i >= 1 && i <= n) return { i, n };
  throw new RangeError(`--shard is "${text}"; it must be i/n, such as 2/3: part i of n`);
}

/** Until Ctrl-C. */
function* untilStopped(numbers: readonly number[]): Generator<number> {
  let isStopped = false;
  const stop = () => {
    isStopped = true;
  };
  process.once("SIGINT", stop);
  for (const number of numbers) {
    if (isStopped) break;
    yield number;
  }
  process.off("SIGINT", stop);
}

const plansOf = (count: number) => `${count} ${count === 1 ? "plan" : "plans"}`;

function summary({ plans, refused, runs, longest, found }: Tried): string {
  const of = (kind: Found["kind"]) =>
    new Set(found.filter((each) => each.kind === kind).map(({ number }) => number)).size;
  const kinds = ["crash", "too long", "not a number", "balance", "too wet", "failed"] as const;
  const counts = kinds.map((kind) => `  ${kind.padEnd(14)} ${plansOf(of(kind))}`);
  const slowest = `longest run: ${longest.seconds.toFixed(1)} s of CPU (plan ${longest.number}, ${longest.name})`;
  return [`${plansOf(plans)}, ${runs} runs; ${refused} more plans were refused; ${slowest}`, ...counts].join("\n");
}

function isSound({ plans, found }: Tried): boolean {
  const failed = new Set(found.filter(({ kind }) => kind === "failed").map(({ number }) => number)).size;
  return found.every(({ kind }) => kind === "failed") && failed < Math.max(MOST_FAILED * plans, 1);
}

/** Reads the options, tries the plans, and gives the exit code. */
export async function soak(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: {
      seed: { type: "string", default: "1" },
      count: { type: "string", default: "2000" },
      shard: { type: "string", default: "1/1" },
      only: { type: "string" },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) {
    console.log(HELP);
    return 0;
  }
  const [seed, count, { i, n }] = [
    whole("seed", values.seed, 0),
    whole("count", values.count, 1),
    shardOf(values.shard),
  ];
  const only = values.only === undefined ? undefined : whole("only", values.only, 0);
  const numbers = only === undefined ? range(i - 1, count, n) : [only];
  if (only !== undefined) console.log(JSON.stringify(drawnPlan(seed, only).typed, null, 2));
  const tell = (found: Found | undefined, { plans }: Tried) => {
    if (found) console.log(`plan ${found.number}, ${found.name}: ${found.kind}: ${found.what}`);
    else if (process.stderr.isTTY) process.stderr.write(`\r\x1b[K${plans} of ${numbers.length}\r`);
  };
  const tried = await tryPlans(seed, untilStopped(numbers), tell);
  console.log(`Seed ${seed}: ${summary(tried)}`);
  return isSound(tried) ? 0 : 1;
}

if (process.argv[1]?.endsWith("soak.ts")) {
  try {
    process.exitCode = await soak(process.argv.slice(2));
  } catch (error) {
    if (!(error instanceof RangeError || (error instanceof TypeError && "code" in error))) throw error;
    process.stderr.write(`${error.message}\n\n${HELP}`);
    process.exitCode = 2;
  }
}
