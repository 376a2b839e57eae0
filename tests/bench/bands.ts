/**
 * `npm run bench:bands`: how long a band takes, soil by soil, in the terminal and in a page, and how soon a slider is
 * answered meanwhile. It only tells; the bounds that can fail are those of `npm run bench`.
 */
import { availableParallelism, loadavg } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { median } from "d3-array";
import type { Page } from "playwright-core";
import { type Plan, resolvePlan, soundValue } from "../../model/public/plan.ts";
import { buildNotebooks, distFolder } from "../../notebooks/commands/build.ts";
import demoPlan from "../../notebooks/demo-plan.json" with { type: "json" };
import { threadQueue } from "../../notebooks/solving/threads.ts";
import { startBrowser } from "../browser/browser.ts";
import { type EnsembleFigures, ensembleFigures, MEMBERS } from "./ensembleFigures.ts";

const SOILS = ["loam", "sand", "clay"] as const;
/** Asked for: a first band within a second, and all of it within eight, on two cores. */
const AIM = { first: 1000, all: 8000 };

const planIn = (name: string): Plan => soundValue(resolvePlan({ ...demoPlan, soil: { kind: "class", name } }));

type Times = Pick<EnsembleFigures, "firstMilliseconds" | "allMilliseconds">;

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
  const firstMilliseconds = performance.now() - started;
  await answer("(days?|hours?)\\.$");
  return { firstMilliseconds, allMilliseconds: performance.now() - started };
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
    observer.observe(document.querySelector(".picture")!, { childList: true, subtree: true });
    (slider as HTMLInputElement).value = String(value);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

/** How often the picture is drawn anew while a slider is dragged to and fro for two seconds, of 16 asked for. */
async function redraws(page: Page, field: string): Promise<number> {
  const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
  await slider.scrollIntoViewIfNeeded();
  await page.evaluate(() => {
    const counted = Object.assign(window, { redraws: 0 });
    const picture = document.querySelector(".picture .drawing")!;
    new MutationObserver(() => counted.redraws++).observe(picture, { childList: true });
  });
  const { x, y, width, height } = (await slider.boundingBox())!;
  await page.mouse.move(x + 0.1 * width, y + height / 2);
  await page.mouse.down();
  const started = performance.now();
  for (let share = 0.1; performance.now() - started < 2000; share = share < 0.9 ? share + 0.02 : 0.1)
    await page.mouse.move(x + share * width, y + height / 2);
  const count = await page.evaluate(() => (window as unknown as { redraws: number }).redraws);
  await page.mouse.up();
  return count;
}

function tell(where: string, { firstMilliseconds, allMilliseconds }: Times) {
  const seconds = (milliseconds: number) => `${(milliseconds / 1000).toFixed(2)} s`;
  console.log(
    `${where.padEnd(28)} first band ${seconds(firstMilliseconds)} (aim ${seconds(AIM.first)}), ${MEMBERS} soils ${seconds(allMilliseconds)} (aim ${seconds(AIM.all)})`,
  );
}

console.log(`${availableParallelism()} cores; load before: ${loadavg()[0]!.toFixed(1)}`);
const queue = threadQueue();
for (const name of SOILS) tell(`terminal, ${name}`, await ensembleFigures(planIn(name), queue));
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
for (const name of ["how-far-does-water-spread", "when-do-i-refill", "my-bed"]) {
  const opened = await browser.newPage();
  const started = performance.now();
  await opened.goto(pathToFileURL(join(distFolder, `${name}.html`)).href);
  await opened.locator(".answer p").waitFor();
  const first = performance.now() - started;
  await opened.waitForFunction(() => document.documentElement.dataset.busy === "false");
  const drawn = await redraws(opened, "startSuctionKPa");
  console.log(`${name.padEnd(28)} first answer ${first.toFixed(0)} ms (aim 5000), ${drawn} redraws in 2 s (aim 16)`);
  await opened.close();
}
await browser.close();
console.log(`load after: ${loadavg()[0]!.toFixed(1)}`);
