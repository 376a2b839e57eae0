/** The page with a band that grows: it is watched, stopped, and disturbed while it does. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { answered, answerOf, axeFaults, isFocused, it, moveTo, worked } from "./pages.ts";

const NAME = "how-sure-is-it";

/** The first band is there. */
const banded = (page: Page) => expect.poll(() => answerOf(page)).toMatch(/^In loam, /);
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

/** All that answer and progress line have said since the page was loaded, one after another. */
async function heard(page: Page) {
  await page.addInitScript(() => {
    const said: { answer: string; count: string; bar: number[] }[] = [];
    Object.assign(window, { said });
    new MutationObserver(() => {
      const text = (selector: string) => document.querySelector(selector)?.textContent ?? "";
      const bar = document.querySelector<HTMLProgressElement>(".progress progress");
      said.push({ answer: text(".answer p"), count: text(".progress .count"), bar: bar ? [bar.value, bar.max] : [] });
    }).observe(document, { childList: true, subtree: true, characterData: true });
  });
  await page.reload();
  return () =>
    page.evaluate(() => (window as unknown as { said: { answer: string; count: string; bar: number[] }[] }).said);
}

/** All soils are in, and told of. */
async function gathered(page: Page, count: number) {
  // Between the plan's own run and the first soils a page is idle for a moment.
  await expect.poll(() => progressOf(page)).toMatchObject({ count, total: count });
  await worked(page);
}

describe("how sure is it, in a page", () => {
  it("tells of the mean soil first, then a band, and sharpens it until all soils are in", async ({ open }) => {
    const { page, messages } = await open(NAME);
    await choose(page, "soilCount", "50");
    const said = await heard(page);
    await answered(page);
    await gathered(page, 50);
    const all = await said();
    const answers = all.map(({ answer }) => answer).filter((answer) => answer !== "");
    expect(answers[0]).toMatch(/^In the mean loam, .* is being worked out\.$/);
    expect(answers).toContainEqual(expect.stringMatching(/^In loam, .*so far, from \d+ of 50 soils/));
    expect(answers.at(-1)).toMatch(/^In loam, /);
    expect(answers.at(-1)).not.toContain("so far");
    const counted = all.filter(({ count }) => count.endsWith(" of 50 worked out"));
    const counts = counted.map(({ count }) => Number.parseInt(count, 10));
    expect(counts).toEqual(counts.toSorted((a, b) => a - b));
    expect(new Set(counts).size).toBeGreaterThan(3);
    for (const { count, bar } of counted) expect(bar).toEqual([Number.parseInt(count, 10), 50]);
    expect((await progressOf(page)).told).toBe("All are worked out.");
    expect(await page.locator(".answer").getAttribute("aria-busy")).toBe("false");
    expect(messages).toEqual([]);
  });

  it("stops at the press of a key, keeps the band so far with its count, and goes on", async ({ open }) => {
    const { page, messages } = await open(NAME, { width: 380 });
    await choose(page, "soilCount", "500");
    await banded(page);
    const button = page.locator(".progress button");
    await button.focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => button.textContent()).toBe("Go on");
    // What was under way comes in yet: two members of each of two workers at most.
    const saysItsCount = async () => {
      const { count } = await progressOf(page);
      return (await answerOf(page))?.includes(`so far, from ${count} of 500 soils`);
    };
    await expect.poll(saysItsCount).toBe(true);
    const stopped = await progressOf(page);
    expect(stopped.count).toBeLessThan(500);
    expect(stopped.told).toBe("Stopped. What you see is from those so far.");
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(380);
    expect(await axeFaults(page)).toEqual([]);
    expect(await isFocused(button)).toBe(true);
    await page.keyboard.press("Enter");
    await expect.poll(() => button.textContent()).toBe("Stop");
    await expect.poll(async () => (await progressOf(page)).count).toBeGreaterThan(stopped.count + 5);
    expect(messages).toEqual([]);
  });

  it("follows a slider that moves while soils are being worked out, to the band of its last value", async ({
    open,
  }) => {
    const { page } = await open(NAME);
    await choose(page, "soilCount", "500");
    await banded(page);
    const before = await answerOf(page);
    await moveTo(page.locator('[data-field="startSuctionKPa"] input[type="range"]'), "900");
    await choose(page, "soilCount", "50");
    await gathered(page, 50);
    const atEnd = await answerOf(page);
    expect(atEnd).not.toBe(before);
    await page.reload();
    await gathered(page, 50);
    expect(await answerOf(page)).toBe(atEnd);
  });

  it("gives the same band for the same draw, and another for another", async ({ open }) => {
    const { page } = await open(NAME);
    await choose(page, "soilCount", "50");
    await gathered(page, 50);
    const first = await answerOf(page);
    await choose(page, "draw", "2");
    await expect.poll(() => answerOf(page)).not.toBe(first);
    await gathered(page, 50);
    expect(await answerOf(page)).not.toBe(first);
    await choose(page, "draw", "1");
    await expect.poll(() => answerOf(page)).toBe(first);
  });

  it("says in words that a helper broke down, and tries again with another setting", async ({ open }) => {
    const { page } = await open(NAME);
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
      .poll(() => page.locator(".answer").textContent())
      .toContain("A helper in the background broke down (out of memory)");
    await choose(page, "soilCount", "50");
    await expect.poll(() => page.locator(".answer").textContent()).toMatch(/^In loam, /);
  });
});
