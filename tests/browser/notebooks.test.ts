import { mkdir } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks, distFolder } from "../../notebooks/build.ts";
import { notebooks } from "../../notebooks/list.ts";
import { startBrowser } from "./browser.ts";

const minutes = 60_000;
const pictures = join(distFolder, "..", "out", "pictures");
const axeScript = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

let browser: Browser;

beforeAll(async () => {
  await mkdir(pictures, { recursive: true });
  [browser] = await Promise.all([startBrowser(), buildNotebooks()]);
}, 3 * minutes);

afterAll(() => browser?.close());

describe.each(notebooks)("$name", ({ name }) => {
  describe.each([1280, 380])("at %i pixels", (width) => {
    it("answers from a file, says nothing to the console, fits the width and is accessible", {
      timeout: 2 * minutes,
    }, async () => {
      const { page, messages } = await open(name, width);
      const started = performance.now();
      await page.locator(".answer p").waitFor();
      expect(performance.now() - started, "milliseconds to the first answer").toBeLessThan(20_000);
      expect(await page.locator(".answer p").textContent()).toMatch(/\w.*\.$/);
      await worked(page);
      await page.screenshot({ path: join(pictures, `${name}-${width}.png`), fullPage: true });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await axeFaults(page)).toEqual([]);
      expect(messages).toEqual([]);
      await page.context().close();
    });
  });

  it.each([900, 600])(
    "covers at most a quarter of a phone %i pixels high with its answer",
    async (height) => {
      const { page } = await open(name, 380, height);
      await worked(page);
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      const { y, height: tall } = (await page.locator(".answer").boundingBox())!;
      expect(y + tall).toBeLessThanOrEqual(height / 4);
      await page.context().close();
    },
    minutes,
  );

  it("sets to work with every slider", {
    timeout: 6 * minutes,
  }, async () => {
    const { page, messages } = await open(name, 1280);
    await worked(page);
    const answer = await page.locator(".answer p").textContent();
    for (const field of await fields(page, "number")) {
      const before = await shown(page);
      const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
      const box = page.locator(`[data-field="${field}"] input[type="text"]`);
      const start = await box.inputValue();
      await moveTo(slider, await otherValue(slider));
      const works = async () => (await isBusy(page)) || (await shown(page)) !== before;
      await expect.poll(works, { timeout: 10_000, message: `nothing moved with ${field}` }).toBe(true);
      await box.fill(start);
      await expect.poll(() => page.locator(".answer p").textContent(), { timeout: minutes }).toBe(answer);
      await worked(page);
      expect(await page.locator(".answer p").textContent(), `after ${field}`).toBe(answer);
    }
    expect(messages).toEqual([]);
    await page.context().close();
  });

  it("refuses bad numbers, says why, keeps what was typed and keeps the last good answer", {
    timeout: 3 * minutes,
  }, async () => {
    const { page, messages } = await open(name, 1280);
    await worked(page);
    const answer = await page.locator(".answer p").textContent();
    for (const field of await fields(page, "number"))
      for (const typed of ["", "abc", "-99999", "1e9"]) {
        const control = page.locator(`[data-field="${field}"]`);
        const box = control.locator('input[type="text"]');
        const before = await box.inputValue();
        await box.fill(typed);
        const label = await control.locator("label").textContent();
        const message = await control.locator(".note").textContent();
        expect(message, field).toContain(
          `${label} is ${typed === "" ? "empty" : `"${typed}"`}; it must be a number from `,
        );
        await box.blur();
        expect(await box.inputValue()).toBe(typed);
        expect(await box.getAttribute("aria-invalid")).toBe("true");
        expect(await page.locator(".basis").textContent()).toContain("last values");
        expect(await page.locator(".answer p").textContent()).toBe(answer);
        await box.fill(before);
        expect(await box.getAttribute("aria-invalid")).toBe("false");
      }
    expect(messages).toEqual([]);
    await page.context().close();
  });

  it("remembers the units and what was chosen after a reload", { timeout: minutes }, async () => {
    const { page } = await open(name, 1280);
    await answered(page);
    const systems = await page
      .locator('input[name="units"]')
      .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value));
    for (const units of systems) {
      await page.locator(`input[name="units"][value="${units}"]`).check();
      await page.reload();
      await page.locator(".answer p").waitFor();
      expect(await page.locator(`input[name="units"][value="${units}"]`).isChecked()).toBe(true);
    }
    await page.context().close();
  });

  it("opens again with a fault that was left in it: what was typed stands, and an answer too", {
    timeout: minutes,
  }, async () => {
    const { page, messages } = await open(name, 1280);
    await answered(page);
    await page.locator('[data-field="soil.kind"] select').selectOption("texture");
    await page.locator('[data-field="soil.sand"] input[type="text"]').fill("90");
    await page.reload();
    await page.locator(".answer p").waitFor();
    expect(await page.locator('[data-field="soil.sand"] input[type="text"]').inputValue()).toBe("90");
    expect(await page.locator(".basis").textContent()).toContain("last values");
    expect(messages).toEqual([]);
    await page.context().close();
  });

  it("redraws while a slider is dragged for two seconds and ends at its last value", {
    timeout: 2 * minutes,
  }, async () => {
    const { page } = await open(name, 1280);
    await worked(page);
    for (const field of (await fields(page, "number")).slice(0, 2)) await dragged(page, field);
    await page.context().close();
  });

  it("can be worked with the keyboard alone", { timeout: minutes }, async () => {
    const { page } = await open(name, 1280);
    await answered(page);
    const field = (await fields(page, "number"))[0]!;
    const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
    const before = await slider.inputValue();
    for (let i = 0; i < 60 && !(await isFocused(slider)); i++) await page.keyboard.press("Tab");
    expect(await isFocused(slider), "the slider is reached by Tab").toBe(true);
    await page.keyboard.press("ArrowRight");
    expect(await slider.inputValue()).not.toBe(before);
    await page.context().close();
  });
});

async function open(name: string, width: number, height = 900) {
  const context = await browser.newContext({ viewport: { width, height } });
  const page = await context.newPage();
  const messages: string[] = [];
  page.on("console", (message) => messages.push(message.text()));
  page.on("pageerror", (error) => messages.push(String(error)));
  await page.goto(pathToFileURL(join(distFolder, `${name}.html`)).href);
  return { page, messages };
}

const answered = (page: Page) => page.locator(".answer p").waitFor();

/** Waits until the full solution is shown. */
async function worked(page: Page) {
  await answered(page);
  await page.waitForFunction(() => document.documentElement.dataset.busy === "false", null, { timeout: minutes });
}

/** What a result can change: the words and numbers, and the points of the drawings (their count says enough). */
const shown = (page: Page) =>
  page.evaluate(() => {
    const words = [...document.querySelectorAll(".answer, figcaption, td")].map((node) => node.textContent);
    const points = [...document.querySelectorAll(".drawing path")].map((path) => path.getAttribute("d")?.length ?? 0);
    return `${words.join("; ")}; ${points.join(" ")}`;
  });

const fields = (page: Page, kind: string) =>
  page
    .locator(`.control.${kind}`)
    .evaluateAll((all) =>
      all.filter((each) => (each as HTMLElement).checkVisibility()).map((each) => (each as HTMLElement).dataset.field!),
    );

/** Three steps up, or down from the upper end. */
const otherValue = (slider: Locator) =>
  slider.evaluate((node) => {
    const input = node.cloneNode() as HTMLInputElement;
    input.value = (node as HTMLInputElement).value;
    const before = input.value;
    input.stepUp(3);
    if (input.value === before) input.stepDown(3);
    return input.value;
  });

const moveTo = (slider: Locator, value: string) =>
  slider.evaluate((node, to) => {
    (node as HTMLInputElement).value = to;
    node.dispatchEvent(new Event("input", { bubbles: true }));
  }, value);

const isBusy = (page: Page) => page.evaluate(() => document.documentElement.dataset.busy === "true");

const isFocused = (locator: Locator) => locator.evaluate((node) => node === document.activeElement);

async function dragged(page: Page, field: string) {
  const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
  await slider.scrollIntoViewIfNeeded();
  await page.evaluate(() => {
    const view = document.querySelector(".view")!;
    const counted = Object.assign(window, { redraws: 0 });
    new MutationObserver(() => counted.redraws++).observe(view.querySelector(".picture")!, { childList: true });
  });
  const { x, y, width, height } = (await slider.boundingBox())!;
  await page.mouse.move(x + 0.3 * width, y + height / 2);
  await page.mouse.down();
  const started = performance.now();
  for (let share = 0.3; performance.now() - started < 2000; share = share < 0.7 ? share + 0.01 : 0.3)
    await page.mouse.move(x + share * width, y + height / 2);
  await page.mouse.move(x + 0.5 * width, y + height / 2);
  const redraws = await page.evaluate(() => (window as unknown as { redraws: number }).redraws);
  await page.mouse.up();
  console.info(`${field}: ${redraws} redraws in 2 s of dragging`);
  // 20 come where each takes 100 ms. The slowest, three soils at once, gives 12; a busy machine may be half as fast.
  expect(redraws, `redraws while ${field} is dragged`).toBeGreaterThanOrEqual(6);
  await worked(page);
  const text = await slider.getAttribute("aria-valuetext");
  expect(text).toContain(await page.locator(`[data-field="${field}"] input[type="text"]`).inputValue());
}

/** Serious and critical ones, in words. */
async function axeFaults(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: axeScript });
  const found = await page.evaluate(() => (window as unknown as { axe: typeof import("axe-core") }).axe.run());
  return found.violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
}
