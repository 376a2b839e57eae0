/** `npm run bench:page`: how long a person who moves a slider waits for the new picture. It only tells. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { quantile } from "d3-array";
import type { Browser, CDPSession, Page } from "playwright-core";
import { buildNotebooks, distFolder } from "../../notebooks/commands/build.ts";
import { startBrowser } from "../browser/browser.ts";

const HELP = `npm run bench:page -- [--against PATH] [--moves N]

Moves sliders of the first notebook one step after another, each once all is worked out, and prints in milliseconds:
  picture      from the input event to the painted picture of the new result: median, and the fastest and slowest tenth
  main thread  processor time of the page itself until all was worked out, layouts among it, and their number

  --against   built pages, or a checkout that can build them: measured by turns with ours, with the ratio to them
  --moves     moves of each slider (20 when absent)
`;

const NOTEBOOK = "how-far-does-water-spread.html";
const SLIDERS = ["startSuctionKPa", "pot.height", "day"];
const WARM_UP_MOVES = 5;
/** After so many a slider starts again: by then the worker has forgotten the runs before. */
const STEPS = 10;

/** Milliseconds, but for the number of layouts. */
interface Move {
  picture: number;
  mainThread: number;
  layout: number;
  layouts: number;
}

interface Opened {
  page: Page;
  session: CDPSession;
}

async function open(browser: Browser, folder: string): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(join(folder, NOTEBOOK)).href);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  await still(page);
  return { page, session };
}

/** All is worked out, and has been drawn. */
async function still(page: Page) {
  await page.locator(".picture svg").waitFor();
  await page.waitForFunction(() => document.documentElement.dataset.busy === "false");
  await page.waitForTimeout(150);
}

async function busyWith({ session }: Opened): Promise<Omit<Move, "picture">> {
  const { metrics } = await session.send("Performance.getMetrics");
  const value = (name: string) => metrics.find((metric) => metric.name === name)!.value;
  return {
    mainThread: 1000 * value("TaskDuration"),
    layout: 1000 * value("LayoutDuration"),
    layouts: value("LayoutCount"),
  };
}

/** Puts a slider so many steps above where it stood when the page was opened. */
async function move(opened: Opened, field: string, steps: number): Promise<Move> {
  const { page } = opened;
  await page.bringToFront();
  const before = await busyWith(opened);
  const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
  const picture = await slider.evaluate(movedAndPainted, steps);
  await still(page);
  const after = await busyWith(opened);
  return {
    picture,
    mainThread: after.mainThread - before.mainThread,
    layout: after.layout - before.layout,
    layouts: after.layouts - before.layouts,
  };
}

/**
 * Runs in the page: the compiler adds to named functions what a page does not have, so only methods are named. A task of
 * the highest priority that a frame sets off comes right after it is painted.
 */
async function movedAndPainted(node: HTMLElement | SVGElement, steps: number): Promise<number> {
  const slider = node as HTMLInputElement;
  slider.dataset.first ??= slider.value;
  const old = document.querySelector(".picture svg");
  const started = performance.now();
  slider.value = slider.dataset.first;
  slider.stepUp(steps);
  slider.dispatchEvent(new Event("input", { bubbles: true }));
  for (let drawing = old; !drawing || drawing === old; drawing = document.querySelector(".picture svg"))
    await new Promise((painted) =>
      requestAnimationFrame(() => scheduler.postTask(() => painted(null), { priority: "user-blocking" })),
    );
  return performance.now() - started;
}

/** Moves by turns, so that whatever else the machine does meets all alike. */
async function movesOf(pages: Opened[], field: string, count: number): Promise<Move[][]> {
  const moves: Move[][] = pages.map(() => []);
  for (let k = -WARM_UP_MOVES; k < count; k++) {
    const steps = ((k + WARM_UP_MOVES) % STEPS) + 1;
    for (const [i, page] of pages.entries()) {
      const made = await move(page, field, steps);
      if (k >= 0) moves[i]!.push(made);
    }
  }
  return moves;
}

function folderOf(path: string): string {
  if (existsSync(join(path, NOTEBOOK))) return path;
  const { status } = spawnSync("npm", ["run", "build", "--silent"], { cwd: path, stdio: "inherit" });
  if (status !== 0) throw new Error(`${path} holds neither built pages nor a checkout that can build them.`);
  return join(path, "dist");
}

const middle = (moves: Move[], key: keyof Move, share = 0.5) => quantile(moves, share, (each) => each[key])!;

function show(field: string, side: string, moves: Move[]) {
  const at = (key: keyof Move, share = 0.5) => middle(moves, key, share).toFixed(0);
  console.log(
    `${field.padEnd(16)} ${side.padEnd(8)} picture ${at("picture")} (${at("picture", 0.1)} to ${at("picture", 0.9)}), main thread ${at("mainThread")}, layout ${at("layout")} (${at("layouts")} times)`,
  );
}

function showRatio(field: string, own: Move[], other: Move[]) {
  const ratio = (key: keyof Move) => (middle(own, key) / middle(other, key)).toFixed(2);
  console.log(`${field.padEnd(16)} ratio    picture ${ratio("picture")}, main thread ${ratio("mainThread")}`);
}

async function bench(against: string | undefined, count: number) {
  await buildNotebooks();
  const folders = [distFolder, ...(against ? [folderOf(resolve(against))] : [])];
  console.log(`${availableParallelism()} cores; load before: ${loadavg()[0]!.toFixed(1)}`);
  const browser = await startBrowser();
  const pages = await Promise.all(folders.map((folder) => open(browser, folder)));
  for (const field of SLIDERS) {
    const [own, other] = await movesOf(pages, field, count);
    show(field, "these", own!);
    if (!other) continue;
    show(field, "against", other);
    showRatio(field, own!, other);
  }
  await browser.close();
  console.log(`load after: ${loadavg()[0]!.toFixed(1)}`);
}

try {
  const { values } = parseArgs({
    options: { against: { type: "string" }, moves: { type: "string", default: "20" }, help: { type: "boolean" } },
  });
  const count = Number(values.moves);
  if (values.help) process.stdout.write(HELP);
  else if (count >= 1 && Number.isInteger(count)) await bench(values.against, count);
  else throw new TypeError(`--moves is "${values.moves}"; it must be a whole number from 1 on.`);
} catch (error) {
  if (!(error instanceof TypeError)) throw error;
  process.stderr.write(`${error.message}\n\n${HELP}`);
  process.exitCode = 2;
}
