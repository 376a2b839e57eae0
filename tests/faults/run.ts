/**
 * Puts the faults of this folder into a copy of the tree, one at a time, and checks that each makes the test fail that
 * it names. A fault is a patch; the lines above it name the room, the test's file and the test:
 *
 *     Room: model/flow
 *     Test: tests/flow/simulate.test.ts
 *     Title: keeps its water balance
 *
 * `npm run test:faults` tries all of them, `npm run test:faults -- leaking-tank` one or a few.
 */
import { execFile, execFileSync } from "node:child_process";
import { cp, mkdtemp, readdir, readFile, rm, symlink } from "node:fs/promises";
import { availableParallelism, tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

interface PlantedFault {
  name: string;
  patch: string;
  room: string;
  file: string;
  title: string;
}

interface TestReport {
  testResults: { assertionResults: { fullName: string; status: string }[] }[];
}

const folder = dirname(fileURLToPath(import.meta.url));
const root = resolve(folder, "../..");
const run = promisify(execFile);

async function plantedFault(file: string): Promise<PlantedFault> {
  const patch = join(folder, file);
  const text = await readFile(patch, "utf8");
  const line = (key: string) => {
    const found = text.match(new RegExp(`^${key}: (.+)$`, "m"))?.[1];
    if (found === undefined) throw new Error(`${file} has no line "${key}: …"`);
    return found;
  };
  return { name: file.replace(/\.patch$/, ""), patch, room: line("Room"), file: line("Test"), title: line("Title") };
}

/** The files that git knows, as they are now, beside the installed packages. */
async function copyOfTree(): Promise<string> {
  const copy = await mkdtemp(join(tmpdir(), "porous-pot-faults-"));
  const known = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], { cwd: root });
  for (const file of known.toString().split("\0").filter(Boolean)) await cp(join(root, file), join(copy, file));
  await symlink(join(root, "node_modules"), join(copy, "node_modules"));
  return copy;
}

/** Undefined where the named test failed; else what happened in its place. */
async function missed({ patch, file, title }: PlantedFault, copy: string): Promise<string | undefined> {
  const applied = await run("git", ["apply", patch], { cwd: copy }).then(
    () => true,
    () => false,
  );
  if (!applied) return "the patch no longer fits the code";
  try {
    const status = await statusOf(title, file, copy);
    if (status !== "failed") return `with the fault the test ${status}`;
  } finally {
    await run("git", ["apply", "--reverse", patch], { cwd: copy });
  }
  const status = await statusOf(title, file, copy);
  return status === "passed" ? undefined : `without the fault the test ${status}`;
}

async function statusOf(title: string, file: string, copy: string): Promise<string> {
  const path = join(copy, "faults-report.json");
  await rm(path, { force: true });
  const vitest = join("node_modules", "vitest", "vitest.mjs");
  const named = ["-t", title.replaceAll(/[^\p{L}\p{N} ]/gu, ".")];
  const options = ["run", "-c", "tests/vitest.config.ts", file, ...named, "--reporter=json", `--outputFile=${path}`];
  // A run with failures exits with 1: the report says which.
  await run(process.execPath, [vitest, ...options], { cwd: copy }).catch(() => undefined);
  const text = await readFile(path, "utf8").catch(() => undefined);
  if (text === undefined) return "did not run";
  const tests = (JSON.parse(text) as TestReport).testResults.flatMap(({ assertionResults }) => assertionResults);
  return tests.find(({ fullName }) => fullName.includes(title))?.status ?? "was not there";
}

async function tryFaults(faults: PlantedFault[], report: (fault: PlantedFault, trouble?: string) => void) {
  const copy = await copyOfTree();
  try {
    for (let fault = faults.shift(); fault; fault = faults.shift()) report(fault, await missed(fault, copy));
  } finally {
    await rm(copy, { recursive: true });
  }
}

const asked = process.argv.slice(2);
const files = (await readdir(folder)).filter((file) => file.endsWith(".patch")).sort();
const all = await Promise.all(files.map(plantedFault));
const faults = all.filter(({ name }) => asked.length === 0 || asked.includes(name));
let [found, overlooked] = [0, 0];

await Promise.all(
  Array.from({ length: availableParallelism() }, () =>
    tryFaults(faults, ({ name, room, title }, trouble) => {
      console.log(
        trouble === undefined
          ? `found       ${name} (${room}): "${title}"`
          : `OVERLOOKED  ${name} (${room}): ${trouble}`,
      );
      if (trouble === undefined) found += 1;
      else overlooked += 1;
    }),
  ),
);
console.log(`${found} found, ${overlooked} overlooked`);
if (overlooked > 0 || found === 0) process.exitCode = 1;
