import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { distFolder } from "../../notebooks/commands/build.ts";
import { notebooks } from "../../notebooks/questions/list.ts";
import { isDeep } from "../support/deep.ts";
import { answered, answerOf, axeFaults, fewest, it } from "./pages.ts";

const pictures = join(distFolder, "..", "out", "pictures");

const contentWidth = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth);

/** A picture to look at, in a deep run. */
async function taken(page: Page, name: string) {
  await mkdir(pictures, { recursive: true });
  if (isDeep) await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
}

it.for(notebooks)(
  "$name opens from a file on a phone, answers, fits it, is accessible and keeps silent",
  async ({ name }, { open }) => {
    const { page, messages } = await open(name, { width: 380 });
    // In the short run the first, coarse answer does: pages of the form's tests are worked out in full.
    await (isDeep ? fewest(page) : answered(page));
    expect(await answerOf(page)).toMatch(/\w.*\.$/);
    expect(await contentWidth(page)).toBeLessThanOrEqual(380);
    await taken(page, `${name}-380`);
    expect(await axeFaults(page)).toEqual([]);
    for (const height of [900, 600]) {
      await page.setViewportSize({ width: 380, height });
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      const bottom = () => page.locator(".answer").evaluate((answer) => answer.getBoundingClientRect().bottom);
      await expect.poll(bottom, { message: `the answer on a phone ${height} high` }).toBeLessThanOrEqual(height / 4);
    }
    await page.setViewportSize({ width: 1280, height: 900 });
    expect(await contentWidth(page)).toBeLessThanOrEqual(1280);
    await taken(page, `${name}-1280`);
    expect(messages).toEqual([]);
  },
);
