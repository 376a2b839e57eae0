/** Pages of notebooks as a person meets them. */
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { distFolder } from "../../notebooks/commands/build.ts";

export const minutes = 60_000;

const axeScript = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** A notebook's page from its file, in a context of its own. */
export async function open(browser: Browser, name: string, width: number, height = 900) {
  const context = await browser.newContext({ viewport: { width, height } });
  const page = await context.newPage();
  const messages: string[] = [];
  page.on("console", (message) => messages.push(message.text()));
  page.on("pageerror", (error) => messages.push(String(error)));
  await page.goto(pathToFileURL(join(distFolder, `${name}.html`)).href);
  return { page, messages };
}

export const answered = (page: Page) => page.locator(".answer p").waitFor();

/** Waits until the full solution is shown. */
export async function worked(page: Page) {
  await answered(page);
  await page.waitForFunction(() => document.documentElement.dataset.busy === "false", null, { timeout: minutes });
}

/** Where a page solves many beds: as few as it offers, so that every slider can be tried in a test's time. */
export async function fewest(page: Page) {
  const count = page.locator(
    '[data-field="soilCount"] select, [data-field="beds"] select, [data-field="drawnSoils"] select',
  );
  if ((await count.count()) > 0) await count.selectOption({ index: 0 });
  await worked(page);
}

/** What a result can change: the words and numbers, and the points of the drawings (their count says enough). */
export const shown = (page: Page) =>
  page.evaluate(() => {
    const words = [...document.querySelectorAll(".answer, figcaption, td")].map((node) => node.textContent);
    const points = [...document.querySelectorAll(".drawing path")].map((path) => path.getAttribute("d")?.length ?? 0);
    return `${words.join("; ")}; ${points.join(" ")}`;
  });

export const fields = (page: Page, kind: string) =>
  page
    .locator(`.control.${kind}`)
    .evaluateAll((all) =>
      all.filter((each) => (each as HTMLElement).checkVisibility()).map((each) => (each as HTMLElement).dataset.field!),
    );

/** Three steps up, or down from the upper end. */
export const otherValue = (slider: Locator) =>
  slider.evaluate((node) => {
    const input = node.cloneNode() as HTMLInputElement;
    input.value = (node as HTMLInputElement).value;
    const before = input.value;
    input.stepUp(3);
    if (input.value === before) input.stepDown(3);
    return input.value;
  });

export const moveTo = (slider: Locator, value: string) =>
  slider.evaluate((node, to) => {
    (node as HTMLInputElement).value = to;
    node.dispatchEvent(new Event("input", { bubbles: true }));
  }, value);

export const isBusy = (page: Page) => page.evaluate(() => document.documentElement.dataset.busy === "true");

export const isFocused = (locator: Locator) => locator.evaluate((node) => node === document.activeElement);

export async function dragged(page: Page, field: string, least: number) {
  const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
  await slider.scrollIntoViewIfNeeded();
  await page.evaluate(() => {
    const view = document.querySelector(".view")!;
    const counted = Object.assign(window, { redraws: 0 });
    const observer = new MutationObserver(() => counted.redraws++);
    observer.observe(view.querySelector(".picture")!, { childList: true });
    // The next slider's redraws are for its own observer to count.
    Object.assign(window, { stopCounting: () => observer.disconnect() });
  });
  const { x, y, width, height } = (await slider.boundingBox())!;
  await page.mouse.move(x + 0.1 * width, y + height / 2);
  await page.mouse.down();
  const started = performance.now();
  for (let share = 0.1; performance.now() - started < 2000; share = share < 0.9 ? share + 0.02 : 0.1)
    await page.mouse.move(x + share * width, y + height / 2);
  await page.mouse.move(x + 0.5 * width, y + height / 2);
  const redraws = await page.evaluate(() => {
    const counted = window as unknown as { redraws: number; stopCounting(): void };
    counted.stopCounting();
    return counted.redraws;
  });
  await page.mouse.up();
  console.info(`${field}: ${redraws} redraws in 2 s of dragging`);
  // 16 are asked for; a busy machine is slower, and three runs at once are the slowest.
  expect(redraws, `redraws while ${field} is dragged`).toBeGreaterThanOrEqual(least);
  await worked(page);
  const text = await slider.getAttribute("aria-valuetext");
  expect(text).toContain(await page.locator(`[data-field="${field}"] input[type="text"]`).inputValue());
}

/** Serious and critical ones, in words. */
export async function axeFaults(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: axeScript });
  const found = await page.evaluate(() => (window as unknown as { axe: typeof import("axe-core") }).axe.run());
  return found.violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
}
