/**
 * `npm run bench:bands`: how long a band takes, soil by soil, in the terminal and in a page, and how soon a slider is
 * answered meanwhile. It only tells; the bounds that can fail are those of `npm run bench`.
 */
import { availableParallelism, loadavg } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { median } from "d3-array";
import type { Page } from "playwright-core";
import {
  drawMembers,
  ensembleSowingDay,
  type Plan,
  planToProblem,
  resolvePlan,
  SOIL_GROUPS,
  simulateToEnd,
  soundValue,
} from "../../model/index.ts";
import { buildNotebooks, distFolder } from "../../notebooks/build.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { threadQueue } from "../../notebooks/lib/threads.ts";
import { startBrowser } from "../browser/browser.ts";

const SOILS = ["loam", "sand", "clay"] as const;
const COUNT = 200;
/** Asked for: a first band within a second, and all of it within eight, on two cores. */
const AIM = { first: 1000, all: 8000 };

const planIn = (name: string): Plan => soundValue(resolvePlan({ ...demoPlan, soil: { kind: "class", name } }));

interface Times {
  first: number;
  all: number;
}

/** From the ask, threads started or not, to the first delivery and to the last. */
async function inTerminal(name: string, queue: ReturnType<typeof threadQueue>): Promise<Times> {
  const plan = planIn(name);
  const started = performance.now();
  const sowingDay = ensembleSowingDay(plan, simulateToEnd(planToProblem(plan)));
  const members = drawMembers(plan, { count: COUNT, seed: 1, varied: SOIL_GROUPS });
  let first = 0;
  await new Promise<void>((done, fail) =>
    queue.ask(
      0,
      { of: null, plan, members, sowingDay },
      {
        deliver({ isDone }) {
          first ||= performance.now() - started;
          if (isDone) done();
        },
        fail,
      },
    ),
  );
  return { first, all: performance.now() - started };
}

/** From the choice of a soil, or from the opening of the page, to its first band and to all of it. */
async function inPage(page: Page, name: string, begin: () => Promise<unknown>): Promise<Times> {
  const started = performance.now();
  await begin();
  const answer = (end: string) =>
    page.waitForFunction(
      ([soil, ending]) => document.querySelector(".answer")?.textContent?.match(new RegExp(`^In ${soil},.*${ending}`)),
      [name, end] as const,
      { polling: 20, timeout: 300_000 },
    );
  await answer("");
  const first = performance.now() - started;
  await answer("(days?|hours?)\\.$");
  return { first, all: performance.now() - started };
}

const MOVES = 10;

/** Median of several moves: from the input event to the picture's next drawing, while soils are being worked out. */
async function sliderMilliseconds(page: Page): Promise<number> {
  const times: number[] = [];
  for (let k = 0; k < MOVES; k++) {
    const slider = page.locator('[data-field="startSuctionKPa"] input[type="range"]');
    times.push(await slider.evaluate(movedAndRedrawn, 500 + 20 * (k + 1)));
    await page.waitForTimeout(700);
  }
  return median(times)!;
}

function movedAndRedrawn(slider: HTMLElement | SVGElement, value: number): Promise<number> {
  const started = performance.now();
  return new Promise((done) => {
    const observer = new MutationObserver(() => {
      observer.disconnect();
      requestAnimationFrame(() => setTimeout(() => done(performance.now() - started)));
    });
    observer.observe(document.querySelector(".picture")!, { childList: true });
    (slider as HTMLInputElement).value = String(value);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

function tell(where: string, { first, all }: Times) {
  const seconds = (milliseconds: number) => `${(milliseconds / 1000).toFixed(2)} s`;
  console.log(
    `${where.padEnd(28)} first band ${seconds(first)} (aim ${seconds(AIM.first)}), ${COUNT} soils ${seconds(all)} (aim ${seconds(AIM.all)})`,
  );
}

console.log(`${availableParallelism()} cores; load before: ${loadavg()[0]!.toFixed(1)}`);
const queue = threadQueue();
queue.prepare();
for (const name of SOILS) tell(`terminal, ${name}`, await inTerminal(name, queue));
queue.end();

await buildNotebooks();
const browser = await startBrowser();
const page = await browser.newPage();
const url = pathToFileURL(join(distFolder, "how-sure-is-it.html")).href;
tell("page, opened with loam", await inPage(page, "loam", () => page.goto(url)));
for (const name of SOILS.slice(1))
  tell(
    `page, ${name} chosen`,
    await inPage(page, name, () => page.locator('[data-field="soil.name"] select').selectOption(name)),
  );
await page.locator('[data-field="soil.name"] select').selectOption("loam");
await page.locator('[data-field="soilCount"] select').selectOption("500");
console.log(
  `page, slider to picture while soils run: ${(await sliderMilliseconds(page)).toFixed(0)} ms (median of ${MOVES})`,
);
await browser.close();
console.log(`load after: ${loadavg()[0]!.toFixed(1)}`);
