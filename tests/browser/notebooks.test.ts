import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks, distFolder } from "../../notebooks/commands/build.ts";
import { notebooks } from "../../notebooks/questions/list.ts";
import { startBrowser } from "./browser.ts";
import {
  answered,
  axeFaults,
  dragged,
  fewest,
  fields,
  isBusy,
  isFocused,
  minutes,
  moveTo,
  open as openPage,
  otherValue,
  shown,
  worked,
} from "./pages.ts";

const pictures = join(distFolder, "..", "out", "pictures");

let browser: Browser;

beforeAll(async () => {
  await mkdir(pictures, { recursive: true });
  [browser] = await Promise.all([startBrowser(), buildNotebooks()]);
}, 3 * minutes);

afterAll(() => browser?.close());

const open = (name: string, width: number, height?: number) => openPage(browser, name, width, height);

describe.each(notebooks)("$name", ({ name }) => {
  describe.each([1280, 380])("at %i pixels", (width) => {
    it("answers from a file, says nothing to the console, fits the width and is accessible", {
      timeout: 2 * minutes,
    }, async () => {
      const { page, messages } = await open(name, width);
      const started = performance.now();
      await page.locator(".answer p").waitFor();
      const milliseconds = performance.now() - started;
      console.info(`first answer of ${name} ${milliseconds.toFixed(0)} ms after its page was loaded`);
      expect(milliseconds, "milliseconds to the first answer").toBeLessThan(5000);
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
      await fewest(page);
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
    await fewest(page);
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
    await fewest(page);
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

  // Counts what a machine does in two seconds: a busy minute of it gets another try.
  it("redraws while a slider is dragged for two seconds and ends at its last value", {
    timeout: 2 * minutes,
    retry: 2,
  }, async () => {
    const { page } = await open(name, 1280);
    await fewest(page);
    const [first, second] = await fields(page, "number");
    await dragged(page, first!, 12);
    await dragged(page, second!, 8);
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

it("a fault that no control of a page can mend brings in the control that can", { timeout: 2 * minutes }, async () => {
  const { page, messages } = await open("how-far-does-water-spread", 1280);
  await answered(page);
  const spacing = page.locator('[data-field="spacing"]');
  expect(await spacing.count()).toBe(0);
  await page.locator('[data-field="pot.rimDiameter"] input[type="text"]').fill("31");
  expect(await spacing.locator(".note").textContent()).toContain(
    "pot spacing is 27 in; it must be 1.25 times the pot's width of 31 in or more",
  );
  await spacing.locator('input[type="text"]').fill("40");
  await worked(page);
  expect(await page.locator(".basis").textContent()).not.toContain("last values");
  expect(messages).toEqual([]);
  await page.context().close();
});
