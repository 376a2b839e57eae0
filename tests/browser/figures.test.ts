/** When a page draws its figures anew: what is seen at once, the rest when it is about to be seen, and all of it for paper. */
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { it, moveTo, worked } from "./pages.ts";

const NAME = "how-far-does-water-spread";

const figure = (page: Page, name: string) => page.locator(`figure[data-figure="${name}"]`);
const drawing = (page: Page, name: string) => figure(page, name).locator("svg").innerHTML();
const caption = (page: Page, name: string) => figure(page, name).locator("figcaption").textContent();

/** A page with a figure far below the screen, and its drawings; the day shown is then another. */
async function dayMoved(page: Page) {
  await worked(page);
  const before = { seen: await drawing(page, "cross-section"), far: await drawing(page, "wetted-radius") };
  const said = await caption(page, "wetted-radius");
  await moveTo(page.locator('[data-field="day"] input[type="range"]'), "9");
  await expect.poll(() => drawing(page, "cross-section")).not.toBe(before.seen);
  expect(await caption(page, "wetted-radius")).not.toBe(said);
  return before;
}

it("a figure far from the screen is drawn from the start, then waits, and is drawn anew when it comes near", async ({
  open,
}) => {
  const { page, messages } = await open(NAME);
  const { far } = await dayMoved(page);
  expect(far).toContain("<path");
  expect(await drawing(page, "wetted-radius")).toBe(far);
  await figure(page, "wetted-radius").scrollIntoViewIfNeeded();
  await expect.poll(() => drawing(page, "wetted-radius")).not.toBe(far);
  expect(messages).toEqual([]);
});

it("paper gets every figure as it is now", async ({ open }) => {
  const { page } = await open(NAME);
  const { far } = await dayMoved(page);
  expect(await drawing(page, "wetted-radius")).toBe(far);
  await page.pdf();
  const printed = await drawing(page, "wetted-radius");
  expect(printed).not.toBe(far);
  await figure(page, "wetted-radius").scrollIntoViewIfNeeded();
  await page.waitForTimeout(100);
  expect(await drawing(page, "wetted-radius")).toBe(printed);
});

it("results that come within a frame are drawn twice at most, into the same figure", async ({ open }) => {
  const { page } = await open(NAME);
  await worked(page);
  const draws = await page.evaluate(async () => {
    const seen = document.querySelector(".picture .drawing")!;
    let draws = 0;
    new MutationObserver((records) => {
      draws += records.length;
    }).observe(seen, { childList: true });
    const slider = document.querySelector<HTMLInputElement>('[data-field="day"] input[type="range"]')!;
    for (const day of ["4", "5", "6", "7", "8"]) {
      slider.value = day;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      // Promises alone: the cells are computed, and no frame can come between.
      for (let k = 0; k < 100; k++) await null;
    }
    for (let frame = 0; frame < 3; frame++) await new Promise((next) => requestAnimationFrame(next));
    return document.contains(seen) ? draws : -1;
  });
  expect(draws).toBe(2);
});
