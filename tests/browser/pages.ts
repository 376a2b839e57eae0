/** Pages of notebooks as a person meets them. */
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from "playwright-core";
import { it as base, inject } from "vitest";
import { distFolder } from "../../notebooks/commands/build.ts";

/** A busy machine is slow, but not for ever. */
const PATIENCE = 240_000;

const axeScript = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

interface Opened {
  page: Page;
  /** What the page has said to the console. */
  messages: string[];
}

/** Tests whose `open` gives a notebook's page from its file, in a context of its own that is closed after the test. */
export const it = base.extend<{
  browser: Browser;
  open: (name: string, size?: { width?: number; height?: number }) => Promise<Opened>;
}>({
  browser: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads from the pattern what a fixture rests on.
    async ({}, use) => {
      const browser = await chromium.connect(inject("browserEndpoint"));
      await use(browser);
      await browser.close();
    },
    { scope: "file" },
  ],
  open: async ({ browser }, use) => {
    const contexts: BrowserContext[] = [];
    await use(async (name, { width = 1280, height = 900 } = {}) => {
      const context = await browser.newContext({ viewport: { width, height } });
      contexts.push(context);
      context.setDefaultTimeout(PATIENCE);
      const page = await context.newPage();
      const messages: string[] = [];
      page.on("console", (message) => messages.push(message.text()));
      page.on("pageerror", (error) => messages.push(String(error)));
      await page.goto(pathToFileURL(join(distFolder, `${name}.html`)).href);
      return { page, messages };
    });
    for (const context of contexts) await context.close();
  },
});

export const answerOf = (page: Page) => page.locator(".answer p").textContent();

export const answered = (page: Page) => page.locator(".answer p").waitFor();

/** Waits until the full solution is shown. */
export async function worked(page: Page) {
  await answered(page);
  await page.waitForFunction(() => document.documentElement.dataset.busy === "false");
}

/** Where a page solves many beds: as few as it offers, so that every slider can be tried in a test's time. */
export async function fewest(page: Page) {
  const count = page.locator(
    '[data-field="soilCount"] select, [data-field="beds"] select, [data-field="drawnSoils"] select',
  );
  if ((await count.count()) > 0) await count.selectOption({ index: 0 });
  await worked(page);
}

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

export const isFocused = (locator: Locator) => locator.evaluate((node) => node === document.activeElement);

/** Serious and critical ones, in words. */
export async function axeFaults(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: axeScript });
  const found = await page.evaluate(() =>
    (window as unknown as { axe: typeof import("axe-core") }).axe.run({ resultTypes: ["violations"], preload: false }),
  );
  return found.violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
}
