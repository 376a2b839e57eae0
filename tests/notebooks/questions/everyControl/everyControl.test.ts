import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Settings } from "../../../../notebooks/form/controlTypes.ts";
import type { Notebook } from "../../../../notebooks/notebook/notebook.ts";
import { notebooks } from "../../../../notebooks/questions/list.ts";
import { allShown, inSight, moved, shownWith, startOf } from "./controls.ts";
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

  it("has all of them solved in full in the deep run", () => {
    expect(existsSync(new URL(`${notebook.name}.deep.test.ts`, import.meta.url))).toBe(true);
  });

  it("answers with one sentence that ends in a full stop", async () => {
    expect((await start()).texts[0]).toMatch(/^[^.]+(\.\d[^.]*)*\.$/);
  });
});
