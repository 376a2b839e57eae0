import { describe, expect, it } from "vitest";
import type { Settings } from "../../../../notebooks/form/controlTypes.ts";
import type { Notebook } from "../../../../notebooks/notebook/notebook.ts";
import { directEnsembles, directSolver } from "../../../../notebooks/solving/solvers.ts";
import { allShown, inSight, moved, startOf } from "./controls.ts";

/** Each control of a notebook changes what it shows, with all that is asked for solved. */
export function everyControlInFull(notebook: Notebook) {
  const solver = directSolver({ accuracy: "live" });
  const ensembles = directEnsembles({ every: 8 });
  const start = startOf(notebook);
  const shown = async (settings: Settings) => ({
    controls: inSight(notebook, settings).map(({ field }) => field),
    texts: await allShown(notebook, settings, solver, ensembles),
  });

  describe(`${notebook.name}, solved in full`, () => {
    const first = shown(start);

    // The same soil known in another way shows the same, beside other controls.
    it.each(inSight(notebook, start))("shows something else with another value of $label", async (control) => {
      expect(await shown(moved(control, start))).not.toEqual(await first);
    });
  });
}
