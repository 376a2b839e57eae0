/** Sliders and boxes, each field once, on the first page that holds it. */
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { notebooks } from "../../notebooks/questions/list.ts";
import { inSight, startOf } from "../notebooks/questions/everyControl/controls.ts";
import { answered, answerOf, it, worked } from "./pages.ts";

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

const BAD = ["", "abc", "-99999", "1e9"];

/**
 * Tries every field: bad numbers in its box, its slider three steps on (down from its upper end), and what stood in the
 * box before. All at once, before the page has had time to work out what follows from any of it.
 */
const tried = (page: Page, fields: string[]) =>
  page.evaluate(
    ([names, bad]) =>
      names.map((field) => {
        const control = document.querySelector(`[data-field="${field}"]`)!;
        const box = control.querySelector<HTMLInputElement>('input[type="text"]')!;
        const slider = control.querySelector<HTMLInputElement>('input[type="range"]')!;
        const say = () => ({
          box: box.value,
          note: control.querySelector(".note")!.textContent,
          isInvalid: box.getAttribute("aria-invalid"),
          basis: document.querySelector(".basis")!.textContent,
          spoken: slider.getAttribute("aria-valuetext"),
          kept: JSON.parse(localStorage.getItem("porous-pot-plan")!).settings[field] as number,
        });
        const type = (text: string) => {
          box.focus();
          box.value = text;
          box.dispatchEvent(new Event("input", { bubbles: true }));
          box.blur();
          return say();
        };
        const slide = () => {
          const before = slider.value;
          slider.stepUp(3);
          if (slider.value === before) slider.stepDown(3);
          slider.dispatchEvent(new Event("input", { bubbles: true }));
          return say();
        };
        const start = say();
        const label = control.querySelector("label")!.textContent;
        return { field, label, start, refused: bad.map(type), slid: slide(), again: type(start.box) };
      }),
    [fields, BAD] as const,
  );

it.for(pages)(
  "the fields of $name refuse bad numbers in words, and follow their sliders",
  async ({ name, fields }, { open }) => {
    const { page, messages } = await open(name);
    await answered(page);
    for (const { field, label, start, refused, slid, again } of await tried(page, fields)) {
      for (const [i, text] of BAD.entries()) {
        const given = text === "" ? "empty" : `"${text}"`;
        expect(refused[i]!.note, field).toContain(`${label} is ${given}; it must be a number from `);
        expect(refused[i]!.basis, field).toContain("last values");
        expect(refused[i], field).toMatchObject({ box: text, isInvalid: "true", kept: start.kept });
      }
      expect(slid.box, field).not.toBe(start.box);
      expect(slid.spoken, field).toMatch(new RegExp(`^${slid.box}( |$)`));
      expect(slid.kept, field).not.toBeCloseTo(start.kept, 6);
      expect(again, field).toMatchObject({ box: start.box, isInvalid: "false" });
      expect(again.kept, field).toBeCloseTo(start.kept, 1);
    }
    await page.locator(`[data-field="${fields[0]}"] input[type="text"]`).fill("abc");
    expect(await page.locator(".basis").textContent()).toContain("last values");
    expect(messages).toEqual([]);
  },
);

it("a bad number leaves the answer of the last good values", async ({ open }) => {
  const { page, messages } = await open("how-far-does-water-spread");
  await worked(page);
  const answer = await answerOf(page);
  await page.locator('[data-field="pot.height"] input[type="text"]').fill("abc");
  await worked(page);
  expect(await answerOf(page)).toBe(answer);
  expect(await page.locator(".basis").textContent()).toContain("last values");
  expect(messages).toEqual([]);
});
