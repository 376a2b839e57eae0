/** The form that all pages share, on one of them. */
import { expect } from "vitest";
import { answered, answerOf, axeFaults, fields, isFocused, it, moveTo, otherValue, worked } from "./pages.ts";

const NAME = "how-far-does-water-spread";

it("a slider that moves changes the answer, and moved back gives the first one again", async ({ open }) => {
  const { page, messages } = await open(NAME);
  await worked(page);
  const answer = await answerOf(page);
  const control = page.locator('[data-field="pot.wallConductivity"]');
  const start = await control.locator('input[type="text"]').inputValue();
  const slider = control.locator('input[type="range"]');
  await moveTo(slider, await otherValue(slider));
  await expect.poll(() => answerOf(page)).not.toBe(answer);
  await control.locator('input[type="text"]').fill(start);
  await expect.poll(() => answerOf(page)).toBe(answer);
  await worked(page);
  expect(await answerOf(page)).toBe(answer);
  expect(messages).toEqual([]);
});

it("a slider dragged by its handle ends at its last value", async ({ open }) => {
  const { page } = await open(NAME);
  await answered(page);
  const slider = page.locator('[data-field="startSuctionKPa"] input[type="range"]');
  await slider.scrollIntoViewIfNeeded();
  const { x, y, width, height } = (await slider.boundingBox())!;
  const along = (share: number) => page.mouse.move(x + share * width, y + height / 2);
  await along(0.1);
  await page.mouse.down();
  for (const share of [0.2, 0.4, 0.8, 0.6, 0.5]) await along(share);
  await page.mouse.up();
  const typed = await page.locator('[data-field="startSuctionKPa"] input[type="text"]').inputValue();
  expect(await slider.getAttribute("aria-valuetext")).toContain(typed);
  const dragged = await slider.evaluate(({ min, max, value }: HTMLInputElement) => (+value - +min) / (+max - +min));
  expect(dragged).toBeCloseTo(0.5, 1);
  await worked(page);
  const answer = await answerOf(page);
  await page.reload();
  await worked(page);
  expect(await answerOf(page)).toBe(answer);
});

it("units and what was chosen are remembered after a reload", async ({ open }) => {
  const { page } = await open(NAME);
  await answered(page);
  for (const units of ["metric", "us"]) {
    const choice = page.locator(`input[name="units"][value="${units}"]`);
    await choice.check();
    await page.reload();
    await answered(page);
    expect(await choice.isChecked()).toBe(true);
  }
});

it("a fault that was left stands after a reload, and an answer too", async ({ open }) => {
  const { page, messages } = await open(NAME);
  await answered(page);
  await page.locator('[data-field="soil.kind"] select').selectOption("texture");
  const sand = page.locator('[data-field="soil.sand"] input[type="text"]');
  await sand.fill("90");
  await page.reload();
  await answered(page);
  expect(await sand.inputValue()).toBe("90");
  expect(await page.locator(".basis").textContent()).toContain("last values");
  expect(messages).toEqual([]);
});

it("the page can be worked with the keyboard alone", async ({ open }) => {
  const { page } = await open(NAME);
  await answered(page);
  const field = (await fields(page, "number"))[0]!;
  const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
  const before = await slider.inputValue();
  for (let i = 0; i < 60 && !(await isFocused(slider)); i++) await page.keyboard.press("Tab");
  expect(await isFocused(slider), "the slider is reached by Tab").toBe(true);
  await page.keyboard.press("ArrowRight");
  expect(await slider.inputValue()).not.toBe(before);
  expect(await axeFaults(page)).toEqual([]);
});

it("a fault that no control of a page can mend brings in the control that can", async ({ open }) => {
  const { page, messages } = await open(NAME);
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
});
