/**
 * `npm run bench`: what the solver costs and how far off it is. Ends with 1 when an error is above its bound, whatever
 * the time.
 */
import { parseArgs } from "node:util";
import { failuresOf, figuresOf, type Wish } from "./figures.ts";
import { printFigures } from "./print.ts";

const HELP = `npm run bench -- [--all] [--browser] [--json]

Prints, with the number of cells and time steps, and medians of five warm runs:
  - the test problem 'buried cylinder' in sand, loam and clay at each setting, with the largest error over five times
    against the known answers;
  - the error of the reference setting, estimated by solving again with cells twice as large;
  - other pots: their time beside the cylinder's;
  - a living bed: its time beside that of the same pot and ground without life, and its errors against the reference;
  - pots all about, solved in three dimensions: time, memory, errors, and how far off the circle of the same area is;
  - a sweep over every texture class, dry and moist, kept full and refilled, cylinder, tapered pot and jar, with the
    largest errors of the live and the standard setting against the reference;
  - the coarse answer of the demo bed, as its first notebook asks for it;
  - an ensemble of 200 soils called loam: when its first members are in, and all.

  --all      every class with every start, filling and pot (144 cases, about six minutes)
  --browser  also the time of the same runs in a browser's worker
  --json     the figures as one JSON object on standard output

Exit code 1 when an error is above its bound, whatever the time.
`;

try {
  const { values } = parseArgs({
    options: {
      all: { type: "boolean", default: false },
      browser: { type: "boolean", default: false },
      json: { type: "boolean", default: false },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) process.stdout.write(HELP);
  else await bench(values);
} catch (error) {
  if (!(error instanceof TypeError && "code" in error)) throw error;
  process.stderr.write(`${error.message}\n\n${HELP}`);
  process.exitCode = 2;
}

async function bench({ json, ...wish }: Wish & { json: boolean }): Promise<void> {
  const tell = (what: string) => process.stderr.isTTY && process.stderr.write(`\r\x1b[K${what}`);
  const figures = await figuresOf(wish, tell);
  tell("");
  if (json) process.stdout.write(`${JSON.stringify(figures, null, 2)}\n`);
  else printFigures(figures);
  const failures = failuresOf(figures);
  for (const failure of failures) process.stderr.write(`above its bound: ${failure}\n`);
  process.exitCode = failures.length > 0 ? 1 : 0;
}
