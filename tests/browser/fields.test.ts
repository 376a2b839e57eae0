/** Sliders and boxes, each field once, on the first page that holds it. */
import type { Page } from "playwright-core";
import { describe, expect } from "vitest";
import { notebooks } from "../../notebooks/questions/list.ts";
import { inSight, startOf } from "../notebooks/questions/everyControl/controls.ts";
import { answerOf, fewest, it, moveTo, otherValue, worked } from "./pages.ts";

const numberFields = notebooks.map((notebook) => ({
  name: notebook.name,
  fields: inSight(notebook, startOf(notebook))
    .filter(({ kind }) => kind === "number")
    .map(({ field }) => field),
}));

/** Pages that together hold every field: first those that hold many. */
const pages = numberFields
  .toSorted((a, b) => b.fields.length - a.fields.length)
  .map(({ name, fields }, i, all) => {
    const before = new Set(all.slice(0, i).flatMap((page) => page.fields));
    return { name, fields: fields.filter((field) => !before.has(field)) };
  })
  .filter(({ fields }) => fields.length > 0);

/** What the page keeps of a field for the next visit. */
const kept = (page: Page, field: string) =>
  page.evaluate((name) => JSON.parse(localStorage.getItem("porous-pot-plan")!).settings[name] as number, field);

/** A text put into a field's box as if typed, left, and what the page then says. */
const typed = (page: Page, field: string, text: string) =>
  page.locator(`[data-field="${field}"]`).evaluate((control, value) => {
    const box = control.querySelector<HTMLInputElement>('input[type="text"]')!;
    box.focus();
    box.value = value;
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.blur();
    return {
      label: control.querySelector("label")!.textContent,
      box: box.value,
      note: control.querySelector(".note")!.textContent,
      isInvalid: box.getAttribute("aria-invalid"),
      basis: document.querySelector(".basis")!.textContent,
      answer: document.querySelector(".answer p")!.textContent,
    };
  }, text);

describe.for(pages)("the fields of $name", ({ name, fields }) => {
  it("refuse bad numbers, say why, keep what was typed and keep the last good answer", async ({ open }) => {
    const { page, messages } = await open(name);
    await fewest(page);
    const answer = await answerOf(page);
    for (const field of fields) {
      const before = await page.locator(`[data-field="${field}"] input[type="text"]`).inputValue();
      for (const text of ["", "abc", "-99999", "1e9"]) {
        const said = await typed(page, field, text);
        const given = text === "" ? "empty" : `"${text}"`;
        expect(said.note).toContain(`${said.label} is ${given}; it must be a number from `);
        expect(said).toMatchObject({ box: text, isInvalid: "true", answer });
        expect(said.basis).toContain("last values");
      }
      expect(await typed(page, field, before)).toMatchObject({ box: before, isInvalid: "false" });
    }
    expect(messages).toEqual([]);
  });

  it("follow their sliders, and the answer is the first one again when all are back", async ({ open }) => {
    const { page, messages } = await open(name);
    await fewest(page);
    const answer = await answerOf(page);
    for (const field of fields) {
      const slider = page.locator(`[data-field="${field}"] input[type="range"]`);
      const box = page.locator(`[data-field="${field}"] input[type="text"]`);
      const [start, value] = [await box.inputValue(), await kept(page, field)];
      await moveTo(slider, await otherValue(slider));
      const text = await box.inputValue();
      expect(text, field).not.toBe(start);
      expect(await slider.getAttribute("aria-valuetext")).toMatch(new RegExp(`^${text}( |$)`));
      expect(await kept(page, field), field).not.toBeCloseTo(value, 6);
      await box.fill(start);
      expect(await kept(page, field), field).toBeCloseTo(value, 1);
    }
    await expect.poll(() => answerOf(page), { timeout: 60_000 }).toBe(answer);
    await worked(page);
    expect(await answerOf(page)).toBe(answer);
    expect(messages).toEqual([]);
  });
});
