/** The page with a band that grows: it is watched, stopped, and disturbed while it does. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks } from "../../notebooks/commands/build.ts";
import { startBrowser } from "./browser.ts";
import { answered, axeFaults, dragged, isFocused, minutes, open as openPage, worked } from "./pages.ts";

let browser: Browser;

beforeAll(async () => {
  [browser] = await Promise.all([startBrowser(), buildNotebooks()]);
}, 3 * minutes);

afterAll(() => browser?.close());

const open = (width: number) => openPage(browser, "how-sure-is-it", width);

const answerOf = (page: Page) => page.locator(".answer p").textContent();
/** The first band is there. */
const banded = (page: Page) => expect.poll(() => answerOf(page), { timeout: minutes }).toMatch(/^In loam, /);
const choose = (page: Page, field: string, value: string) =>
  page.locator(`[data-field="${field}"] select`).selectOption(value);

/** What the progress line says; the answer may be a moment behind. */
function progressOf(page: Page) {
  return page.locator(".progress").evaluate((line) => {
    const text = (selector: string) => line.querySelector(selector)!.textContent!;
    const bar = line.querySelector("progress")!;
    const [, count, total] = text(".count")
      .match(/^(\d+) of (\d+) worked out$/)!
      .map(Number) as [number, number, number];
    return { count, total, bar: [bar.value, bar.max], told: text('[role="status"]') };
  });
}

describe("how sure is it, in a page", { timeout: 3 * minutes }, () => {
  it("tells of the mean soil at once, shows a first band soon, and sharpens it until all soils are in", async () => {
    const started = performance.now();
    const { page, messages } = await open(1280);
    await answered(page);
    console.info(`first answer ${Math.round(performance.now() - started)} ms after opening`);
    expect(await answerOf(page)).toMatch(/^In the mean loam, .* is being worked out\.$/);
    await banded(page);
    console.info(`first band ${Math.round(performance.now() - started)} ms after opening`);
    expect(await answerOf(page)).toMatch(/so far, from \d+ of 200 soils/);
    const seen = [await progressOf(page)];
    while (seen.at(-1)!.count < 200) {
      await page.waitForTimeout(100);
      seen.push(await progressOf(page));
    }
    console.info(`200 soils ${Math.round(performance.now() - started)} ms after opening`);
    await worked(page);
    const counts = seen.map(({ count }) => count);
    expect(counts).toEqual(counts.toSorted((a, b) => a - b));
    expect(new Set(counts).size).toBeGreaterThan(3);
    for (const { count, total, bar } of seen) expect([bar, total]).toEqual([[count, 200], 200]);
    expect((await progressOf(page)).told).toBe("All are worked out.");
    expect(await answerOf(page)).not.toContain("so far");
    expect(await page.locator(".answer").getAttribute("aria-busy")).toBe("false");
    expect(messages).toEqual([]);
    await page.context().close();
  });

  it("stops at the press of a key, keeps the band so far with its count, and goes on", async () => {
    const { page, messages } = await open(380);
    await choose(page, "soilCount", "500");
    await banded(page);
    const button = page.locator(".progress button");
    await button.focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => button.textContent()).toBe("Go on");
    // What was under way comes in yet.
    await page.waitForTimeout(1500);
    const stopped = await progressOf(page);
    expect(stopped.count).toBeLessThan(500);
    expect(stopped.told).toBe("Stopped. What you see is from those so far.");
    await page.waitForTimeout(1000);
    expect(await progressOf(page)).toEqual(stopped);
    expect(await answerOf(page)).toContain(`so far, from ${stopped.count} of 500 soils`);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(380);
    expect(await axeFaults(page)).toEqual([]);
    expect(await isFocused(button)).toBe(true);
    await page.keyboard.press("Enter");
    await expect.poll(() => button.textContent()).toBe("Stop");
    await expect
      .poll(async () => (await progressOf(page)).count, { timeout: minutes })
      .toBeGreaterThan(stopped.count + 5);
    expect(messages).toEqual([]);
    await page.context().close();
  });

  it("answers a slider first while soils are being worked out, and ends with the band of its last value", async () => {
    const { page } = await open(1280);
    await answered(page);
    expect((await progressOf(page)).count).toBeLessThan(200);
    await dragged(page, "startSuctionKPa", 12);
    expect((await progressOf(page)).told).toBe("All are worked out.");
    const atEnd = await answerOf(page);
    await page.reload();
    await worked(page);
    expect(await answerOf(page)).toBe(atEnd);
    await page.context().close();
  });

  it("gives the same band for the same draw, and another for another", async () => {
    const { page } = await open(1280);
    const drawn = async (draw: string) => {
      await choose(page, "draw", draw);
      await worked(page);
      // Between the plan's own run and the first soils a page is idle for a moment.
      await expect.poll(async () => (await progressOf(page)).count).toBe(50);
      await worked(page);
      return answerOf(page);
    };
    await choose(page, "soilCount", "50");
    const [first, second, third] = [await drawn("1"), await drawn("2"), await drawn("1")];
    expect(second).not.toBe(first);
    expect(third).toBe(first);
    await page.context().close();
  });

  it("says in words that a helper broke down, and tries again with another setting", async () => {
    const { page } = await open(1280);
    await page.addInitScript(() => {
      const post = Worker.prototype.postMessage;
      let isBroken = false;
      Worker.prototype.postMessage = function (this: Worker, message: { kind?: string }, ports?: object) {
        if (isBroken || message.kind !== "solve") return post.call(this, message, ports);
        isBroken = true;
        this.dispatchEvent(new ErrorEvent("error", { message: "out of memory" }));
      };
    });
    await page.reload();
    await expect
      .poll(() => page.locator(".answer").textContent(), { timeout: minutes })
      .toContain("A helper in the background broke down (out of memory)");
    await choose(page, "soilCount", "50");
    await expect.poll(() => page.locator(".answer").textContent(), { timeout: minutes }).toMatch(/^In loam, /);
    await page.context().close();
  });
});
