/** Pots moved by hand on the page of a bed. */
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { oneIn } from "../support/deep.ts";
import { answerOf, axeFaults, it, worked } from "./pages.ts";

const NAME = "where-does-each-pot-go";

const names = (page: Page) =>
  page.locator(".handle").evaluateAll((all) => all.map((each) => each.getAttribute("aria-label")!));

const stringRow = (page: Page, k: number) =>
  page.locator("section.on-paper table").first().locator("tbody tr").nth(k).textContent();

it.for(oneIn(2, [1280, 380]))(
  "a pot is dragged at %i pixels: name, strings and answer follow, and a reload keeps it",
  async (width, { open }) => {
    const { page, messages } = await open(NAME, { width });
    await worked(page);
    const [before, row, answer] = [await names(page), await stringRow(page, 2), await answerOf(page)];
    const { x, y, width: size, height } = (await page.locator(".handle").nth(2).boundingBox())!;
    await page.mouse.move(x + size / 2, y + height / 2);
    await page.mouse.down();
    for (let step = 1; step <= 8; step++) await page.mouse.move(x + size / 2 + step, y + height / 2 + step / 2);
    await page.mouse.up();
    const after = await names(page);
    expect(after[2]).not.toBe(before[2]);
    expect(after.toSpliced(2, 1)).toEqual(before.toSpliced(2, 1));
    expect(await stringRow(page, 2)).not.toBe(row);
    expect(await answerOf(page)).not.toBe(answer);
    await page.reload();
    await worked(page);
    expect(await names(page)).toEqual(after);
    await page.getByRole("button", { name: "Back to the grid" }).click();
    expect(await names(page)).toEqual(before);
    expect(await axeFaults(page)).toEqual([]);
    expect(messages).toEqual([]);
  },
);

it("a pot is moved and taken away by the keyboard alone, and stays in hand", async ({ open }) => {
  const { page, messages } = await open(NAME);
  await worked(page);
  await page.locator('input[name="units"][value="metric"]').check();
  await worked(page);
  const count = (await names(page)).length;
  const focused = () => page.evaluate(() => document.activeElement!.getAttribute("aria-label"));
  for (let i = 0; i < 60 && !(await focused())?.startsWith("Pot 1,"); i++) await page.keyboard.press("Tab");
  const along = async () => Number(/([\d.]+) cm along/.exec((await focused()) ?? "")?.[1]);
  const start = await along();
  /** The next press comes when the drawing has followed. */
  const press = async (key: string, by: number) => {
    const before = await along();
    await page.keyboard.press(key);
    await expect.poll(along, { message: key }).toBe(before + by);
  };
  await press("Shift+ArrowRight", 10);
  await press("Shift+ArrowRight", 10);
  for (let i = 0; i < 10; i++) await press("ArrowLeft", -1);
  expect(await along()).toBe(start + 10);
  await page.keyboard.press("Delete");
  expect((await names(page)).length).toBe(count - 1);
  await page.getByRole("button", { name: "Add a pot" }).click();
  expect((await names(page)).length).toBe(count);
  expect(messages).toEqual([]);
});

it("a bed of any shape is drawn by its corners; one whose sides cross is refused, and nothing is lost", async ({
  open,
}) => {
  const { page, messages } = await open(NAME);
  await worked(page);
  await page.locator('[data-field="bed.shape"] input[value="polygon"]').check();
  const corner = (name: string) => page.locator(`.handle[aria-label^="Corner ${name}"]`);
  expect(await page.locator('.handle[aria-label^="Corner"]').count()).toBe(4);
  await page.getByRole("button", { name: "Add a corner" }).click();
  expect(await page.locator('.handle[aria-label^="Corner"]').count()).toBe(5);
  const answer = await answerOf(page);
  const note = page.locator('[data-field="bed.shape"] .note');
  for (let i = 0; i < 30 && !/cross/.test((await note.textContent())!); i++) {
    const before = await corner("A").getAttribute("aria-label");
    await corner("A").focus();
    await page.keyboard.press("Shift+ArrowUp");
    await expect
      .poll(async () => (await corner("A").getAttribute("aria-label")) !== before || (await note.textContent()) !== "")
      .toBe(true);
  }
  expect(await note.textContent()).toMatch(/cross|outline/);
  expect(await page.locator(".basis").textContent()).toContain("last values");
  expect(await answerOf(page)).toMatch(/\d+ pots/);
  await page.locator('[data-field="bed.shape"] input[value="rectangle"]').check();
  await worked(page);
  expect(await page.locator(".basis").textContent()).not.toContain("last values");
  expect(answer).toMatch(/bed takes/);
  expect(messages).toEqual([]);
});

it("paper gets the drawing to its scale, the strings and what to buy, and no controls", async ({ open }) => {
  const { page } = await open(NAME);
  await worked(page);
  await page.emulateMedia({ media: "print" });
  expect(await page.locator("form").first().isVisible()).toBe(false);
  expect(await page.locator(".picture").isVisible()).toBe(false);
  const drawing = page.locator('figure[data-figure="bed-on-paper"] svg');
  const width = (await drawing.boundingBox())!.width;
  const millimetres = Number((await drawing.getAttribute("width"))!.replace("mm", ""));
  // 96 pixels of a page are an inch of paper.
  expect((width / 96) * 25.4).toBeCloseTo(millimetres, 0);
  expect(await page.locator("section.on-paper table").first().isVisible()).toBe(true);
  expect(await page.locator("section.on-paper table").nth(1).isVisible()).toBe(true);
});

it("drawing and tables are saved as files", async ({ open }) => {
  const { page } = await open(NAME);
  await worked(page);
  for (const [button, name] of [
    ["Save this drawing (SVG)", "bed-on-paper.svg"],
    ["Save this table (CSV)", "strings.csv"],
  ] as const) {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: button }).first().click(),
    ]);
    expect(download.suggestedFilename()).toBe(name);
  }
});
