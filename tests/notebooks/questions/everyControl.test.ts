import { describe, expect, it } from "vitest";
import { soundValue } from "../../../model/input/faults.ts";
import { type Control, isShown, type Settings } from "../../../notebooks/form/controlTypes.ts";
import { initialFilled, readPlan } from "../../../notebooks/form/planForm.ts";
import { type Evaluated, evaluate } from "../../../notebooks/notebook/evaluate.ts";
import type { Notebook } from "../../../notebooks/notebook/notebook.ts";
import { svgText } from "../../../notebooks/print/printFiles.ts";
import { notebooks } from "../../../notebooks/questions/list.ts";
import { directEnsembles, directSolver } from "../../../notebooks/solving/solvers.ts";

const controlsOf = (notebook: Notebook) => notebook.controls.flatMap((group) => group.controls);

function startOf(notebook: Notebook): Settings {
  const view = controlsOf(notebook).flatMap(({ field, initial }) => (initial === undefined ? [] : [[field, initial]]));
  return { ...initialFilled(undefined).settings, ...Object.fromEntries(view) };
}

const solver = directSolver({ accuracy: "live" });
const ensembles = directEnsembles({ every: 8 });

async function shownWith(notebook: Notebook, settings: Settings): Promise<string> {
  const plan = soundValue(readPlan({ settings, units: "metric" }));
  return textOf(await evaluate(notebook, { plan, units: "metric", view: settings }, solver, ensembles));
}

/** Answer, drawings, captions and numbers; not the words about the run itself. */
function textOf({ answer, picture, sections }: Evaluated): string {
  const blocks = [picture, ...sections.flatMap((section) => section.blocks)];
  const parts = blocks.map((block) => {
    if (typeof block === "string") return "";
    return block.kind === "figure" ? [block.caption, svgText(block)] : block;
  });
  // The drawing library numbers its clips on and on: they differ where nothing else does.
  return JSON.stringify([answer, ...parts]).replaceAll(/clip-\d+/g, "");
}

/** Another value of a control, far enough from the one it stands at to matter. */
function otherValue(control: Control, settings: Settings): number | string {
  const now = settings[control.field];
  if (control.kind === "choice") return control.options.find(({ value }) => value !== "" && value !== now)!.value;
  if (control.kind === "text") throw new Error(`${control.label} is in sight at the start`);
  const { metric } = control.step;
  const step = metric * Math.max(Math.round((0.15 * (control.max - control.min)) / metric), 1);
  return Number(now) + step <= control.max ? Number(now) + step : Number(now) - step;
}

describe.each(notebooks)("$name", (notebook) => {
  const start = startOf(notebook);
  const shown = controlsOf(notebook).filter((control) => isShown(control, start));
  const first = shownWith(notebook, start);

  it.each(shown)("shows something else with another value of $label", { timeout: 60_000 }, async (control) => {
    const value = otherValue(control, start);
    const fills = control.kind === "choice" ? control.fills?.(String(value)) : {};
    const changed = { ...start, ...fills, [control.field]: value };
    // The same soil known in another way shows the same, beside other controls.
    const inSight = (settings: Settings) =>
      controlsOf(notebook)
        .filter((each) => isShown(each, settings))
        .map(({ field }) => field);
    const all = async (settings: Settings) => [inSight(settings), await shownWith(notebook, settings)];
    expect(await all(changed)).not.toEqual([inSight(start), await first]);
  });

  it("answers with one sentence that ends in a full stop", async () => {
    const [answer] = JSON.parse(await first) as [string];
    expect(answer).toMatch(/^[^.]+(\.\d[^.]*)*\.$/);
  });
});
