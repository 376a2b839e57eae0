/** Each control of a notebook, moved far enough to matter, and what the notebook then shows. */
import { JSDOM } from "jsdom";
import { soundValue } from "../../../../model/public/plan.ts";
import { type Control, isShown, type Settings } from "../../../../notebooks/form/controlTypes.ts";
import { setPlan, setView } from "../../../../notebooks/form/form.ts";
import { initialFilled, readPlan } from "../../../../notebooks/form/planForm.ts";
import { type Block, isCell, type Notebook } from "../../../../notebooks/notebook/notebook.ts";
import type { Cell, EnsembleSolver, Solver } from "../../../../notebooks/runtime/cells.ts";
import { startCells } from "../../../../notebooks/runtime/liveCells.ts";

const { document } = new JSDOM("").window;

export const controlsOf = (notebook: Notebook) => notebook.controls.flatMap((group) => group.controls);

export function startOf(notebook: Notebook): Settings {
  const view = controlsOf(notebook).flatMap(({ field, initial }) => (initial === undefined ? [] : [[field, initial]]));
  return { ...initialFilled(undefined).settings, ...Object.fromEntries(view) };
}

/** The controls that a person sees with these settings. */
export const inSight = (notebook: Notebook, settings: Settings): Control[] =>
  controlsOf(notebook).filter((control) => isShown(control, settings));

/** The settings with a control at another value, far enough from the one it stands at to matter. */
export function moved(control: Control, settings: Settings): Settings {
  const value = otherValue(control, settings);
  const fills = control.kind === "choice" ? control.fills?.(String(value)) : {};
  return { ...settings, ...fills, [control.field]: value };
}

function otherValue(control: Control, settings: Settings): number | string {
  const now = settings[control.field];
  if (control.kind === "text") throw new Error(`${control.label} is in sight at the start`);
  if (control.kind === "choice") {
    const other = control.options.find(({ value }) => value !== "" && value !== now);
    if (!other) throw new Error(`${control.label} offers no choice`);
    return other.value;
  }
  const { metric } = control.step;
  const step = metric * Math.max(Math.round((0.15 * (control.max - control.min)) / metric), 1);
  return Number(now) + step <= control.max ? Number(now) + step : Number(now) - step;
}

/** Answer, drawings, captions and numbers one by one; not the words about the run itself. */
export async function* shownWith(
  notebook: Notebook,
  settings: Settings,
  solver: Solver,
  ensembles: EnsembleSolver,
): AsyncGenerator<string> {
  const cells = startCells(solver, ensembles);
  setPlan(cells, soundValue(readPlan({ settings, units: "metric" })), "metric");
  setView(cells, controlsOf(notebook), settings);
  try {
    yield await cells.value(notebook.answer);
    const blocks = [notebook.picture, ...notebook.sections.flatMap(({ content }) => content)].filter(isCell);
    for (const block of blocks) yield textOf([await cells.value(block as Cell<Block | Block[]>)].flat());
  } finally {
    cells.stop();
  }
}

/** All of it. */
export async function allShown(...asked: Parameters<typeof shownWith>): Promise<string[]> {
  const texts = [];
  for await (const text of shownWith(...asked)) texts.push(text);
  return texts;
}

function textOf(blocks: Block[]): string {
  const parts = blocks.map((block) => {
    if (typeof block === "string") return "";
    return block.kind === "figure" ? [block.caption, block.draw({ document, width: 640 }).outerHTML] : block;
  });
  // The drawing library numbers its clips on and on: they differ where nothing else does.
  return JSON.stringify(parts).replaceAll(/clip-\d+/g, "");
}
