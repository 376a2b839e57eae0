import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { soundValue } from "../../../../model/public/plan.ts";
import type { Settings } from "../../../../notebooks/form/controlTypes.ts";
import { setPlan, setView } from "../../../../notebooks/form/form.ts";
import { readPlan } from "../../../../notebooks/form/planForm.ts";
import type { Notebook } from "../../../../notebooks/notebook/notebook.ts";
import { notebooks } from "../../../../notebooks/questions/list.ts";
import { startCells } from "../../../../notebooks/runtime/liveCells.ts";
import { settled } from "../../../support/settled.ts";
import { allShown, controlsOf, inSight, moved, shownWith, startOf } from "./controls.ts";
import { rememberingSolvers } from "./rememberingSolvers.ts";

async function shownAtStart(notebook: Notebook, settings: Settings) {
  const solvers = rememberingSolvers();
  const texts = await allShown(notebook, settings, solvers.solver, solvers.ensembles);
  solvers.isStarted = true;
  return { texts, solvers };
}

type Start = Awaited<ReturnType<typeof shownAtStart>>;

/** The first thing that is not as it was at the start: what the solvers are asked, or what is shown. */
async function difference(notebook: Notebook, settings: Settings, { texts, solvers }: Start) {
  const before = texts.values();
  solvers.isAskedAnew = false;
  try {
    for await (const text of shownWith(notebook, settings, solvers.solver, solvers.ensembles))
      if (text !== before.next().value) return text;
  } catch (error) {
    if (solvers.isAskedAnew) return "asked";
    throw error;
  }
  return before.next().value;
}

/** What the notebook answers when its soil is another of late, and no run of that has come yet. */
async function answerMeanwhile(notebook: Notebook, settings: Settings, { solvers }: Start): Promise<string> {
  const cells = startCells(solvers.solverOfKnown, solvers.ensemblesOfKnown);
  const set = (now: Settings) => setPlan(cells, soundValue(readPlan({ settings: now, units: "metric" })), "metric");
  setView(cells, controlsOf(notebook), settings);
  try {
    set(settings);
    await cells.value(notebook.answer);
    set({ ...settings, "soil.kind": "class", "soil.name": "sandy clay" });
    await settled();
    return await cells.value(notebook.answer);
  } finally {
    cells.stop();
  }
}

describe.each(notebooks)("$name", (notebook) => {
  const settings = startOf(notebook);
  const fields = (now: Settings) => inSight(notebook, now).map(({ field }) => field);
  let starting: Promise<Start> | undefined;
  const start = () => {
    starting ??= shownAtStart(notebook, settings);
    return starting;
  };

  it.each(inSight(notebook, settings))("asks or shows something else with another value of $label", async (control) => {
    const now = moved(control, settings);
    // The same soil known in another way shows the same, beside other controls.
    if (fields(now).join() === fields(settings).join())
      expect(await difference(notebook, now, await start())).toBeDefined();
  });

  it("speaks of the bed that its runs belong to while those of another are on their way", async () => {
    expect(await answerMeanwhile(notebook, settings, await start())).toBe((await start()).texts[0]);
  });

  it("has all of them solved in full in the deep run", () => {
    expect(existsSync(new URL(`${notebook.name}.deep.test.ts`, import.meta.url))).toBe(true);
  });

  it("answers with one sentence that ends in a full stop", async () => {
    expect((await start()).texts[0]).toMatch(/^[^.]+(\.\d[^.]*)*\.$/);
  });
});
